"""Shots pasted, imported and exported through the pages; and the studio's templates."""

from __future__ import annotations

import io
import re
from html import unescape

import openpyxl
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from shoots.shotlist.actions.many import list_mark
from shoots.shotlist.core.cells import split_table
from shoots.shotlist.models import FinishingItem, Product, Shot, ShotTemplate
from shoots.shotlist.queries import shot_table
from tests import factories


@pytest.fixture
def shoot(studio):
    return factories.make_shoot(studio, code="26-001")


def url(name, *args):
    return reverse(name, args=["26-001", *args])


def text_of(page) -> str:
    """Return the table that a preview carries on to the next request."""
    return unescape(re.search(r'<textarea name="text" hidden>\n(.*?)</textarea>', page.content.decode(), re.DOTALL)[1])


def taken(browser, page, shoot, **more):
    data = {"text": text_of(page), "step": "take", "mark": page.context["mark"], **more}
    if page.context["preview"].has_head:
        data["head"] = "1"
    if not page.context["preview"].blanks_empty:
        data["lines"] = "1"
    return browser.post(url("shot_table"), data)


def full_list(shoot) -> None:
    """Make shots that use every column, with what is dangerous in cells."""
    mood, setup = factories.make_mood(shoot), factories.make_setup(shoot)
    place, day = factories.make_place(shoot.studio), factories.make_day(shoot)
    first = factories.make_shot(
        shoot,
        title='=HYPERLINK("x","y")',
        purpose="+1, \"quoted\"; <script>alert('x')</script>",
        placements=["WEB_SHOP", "PAID_SOCIAL"],
        framing="WIDE",
        orientation="BOTH",
        shapes=["4:5", "landscape banner"],
        copy_space="top left",
        products=["12 litre pack, slate", "@vest"],
        subjects=["Läufer", "רץ"],
        outfits=["-storm"],
        mood=mood,
        setup=setup,
        place=place,
        day=day,
        moment="LOW_EVE",
        moment_note="sun 🌅 behind",
        priority="WISH",
        minutes=45,
        finals=0,
        note="two\nlines\t=1",
    )
    FinishingItem.objects.create(studio=shoot.studio, shot=first, what="Flare", pictures=2, price="30.00")
    FinishingItem.objects.create(studio=shoot.studio, shot=first, what="=Sky")
    factories.make_shot(shoot, title="'=already marked", shapes=[])
    factories.make_shot(shoot, title="x" * 160)


@pytest.mark.parametrize("kind", ["csv", "xlsx"])
def test_an_exported_list_comes_back_the_same(browser, shoot, kind) -> None:
    full_list(shoot)
    before = shot_table(shoot)
    data = browser.get(url("shot_export", kind)).content
    Shot.objects.all().delete()
    page = browser.post(url("shot_table"), {"file": SimpleUploadedFile(f"shots.{kind}", data)})
    assert page.status_code == 200 and not page.context["preview"].problems
    assert taken(browser, page, shoot).status_code == 302
    assert shot_table(shoot) == before
    assert Product.objects.count() == 2


def test_no_exported_cell_begins_like_a_formula(browser, shoot) -> None:
    full_list(shoot)
    text = browser.get(url("shot_export", "csv")).content.decode("utf-8-sig")
    import csv

    cells = [cell for row in csv.reader(io.StringIO(text)) for cell in row]
    assert any(cell.startswith("'=") for cell in cells)
    assert not [cell for cell in cells if cell[:1] in set("=+-@\t\r")]
    sheet = openpyxl.load_workbook(io.BytesIO(browser.get(url("shot_export", "xlsx")).content)).active
    found = [cell for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert not [cell for cell in found if cell.data_type == "f" or str(cell.value)[:1] in set("=+-@\t\r")]


def test_crew_export_without_prices_and_import_nothing(crew, signed_in, shoot) -> None:
    full_list(shoot)
    factories.make_booking(shoot, person=factories.make_person(shoot.studio, email=crew.user.email))
    browser = signed_in(crew)
    text = browser.get(url("shot_export", "csv")).content.decode("utf-8-sig")
    assert "Flare" in text and "30.00" not in text
    assert browser.get(url("shot_table")).status_code == 403
    assert browser.get(url("shot_export", "doc")).status_code == 404


def test_ticked_shots_alone_are_exported(browser, shoot) -> None:
    shots = [factories.make_shot(shoot, title=f"Shot {n}") for n in range(3)]
    data = browser.post(url("shot_export", "csv"), {"shot": [shots[1].pk, "x"]}).content.decode("utf-8-sig")
    assert [row[:2] for row in split_table(data)[1:]] == [("2", "Shot 1")]


def test_pasted_rows_are_shown_first_and_added_when_asked(browser, shoot) -> None:
    page = browser.post(url("shot_table"), {"text": "Shot\tRatio\tMin\nPack\t4:5\t15\nVest\t\t"})
    assert page.status_code == 200 and not Shot.objects.exists()
    answer = taken(browser, page, shoot)
    assert answer.status_code == 302
    assert list(Shot.objects.values_list("title", "shapes", "minutes")) == [("Pack", ["4:5"], 15), ("Vest", [], 20)]
    again = taken(browser, page, shoot)
    assert again.status_code == 422 and "nothing was written" in again.content.decode() and Shot.objects.count() == 2


def test_a_cell_with_an_error_is_mended_in_place_and_nothing_is_added_before(browser, shoot) -> None:
    page = browser.post(url("shot_table"), {"text": "Shot\tMinutes\nPack\tages\nVest\t5"})
    text = page.content.decode()
    assert 'name="cell-0-1" value="ages"' in text and "“ages” is no number." in text
    refused = taken(browser, page, shoot)
    assert refused.status_code == 422 and not Shot.objects.exists()
    answer = taken(browser, refused, shoot, **{"cell-0-1": "20"})
    assert answer.status_code == 302 and Shot.objects.count() == 2


def test_rows_with_errors_are_left_out_when_that_is_said(browser, shoot) -> None:
    page = browser.post(url("shot_table"), {"text": "Shot\tMinutes\nPack\tages\nVest\t5"})
    assert taken(browser, page, shoot, leave="1").status_code == 302
    assert list(Shot.objects.values_list("title", flat=True)) == ["Vest"]


def test_moods_and_setups_are_found_by_name_and_those_of_others_are_not(browser, shoot, studio) -> None:
    mood = factories.make_mood(shoot, name="Storm coming")
    factories.make_mood(factories.make_shoot(studio), name="Elsewhere")
    page = browser.post(url("shot_table"), {"text": "Shot\tMood\nPack\tstorm coming\nVest\tElsewhere"})
    assert "This shoot has none called “Elsewhere”." in page.content.decode()
    taken(browser, page, shoot, leave="1")
    assert Shot.objects.get().mood == mood


@pytest.mark.parametrize(
    "upload",
    [
        {"text": ""},
        {"text": "   \n\t"},
        {"text": "a\t" * 61 + "a"},
        {"text": "a\n" * 1002},
        {"text": "x" * 1_000_001},
        {"file": SimpleUploadedFile("shots.csv", b"")},
        {"file": SimpleUploadedFile("shots.xlsx", b"PK\x03\x04 broken")},
        {"file": SimpleUploadedFile("shots.csv", b"\x89PNG\x00\x00")},
        {"file": SimpleUploadedFile("shots.csv", b"a" * 2_000_001)},
    ],
)
def test_what_is_no_table_is_told_by_its_field(browser, shoot, upload) -> None:
    if "file" in upload:
        upload["file"].seek(0)
    page = browser.post(url("shot_table"), upload)
    assert page.status_code == 422
    assert list(page.context["form"].errors) == list(upload)
    assert not Shot.objects.exists()


@pytest.mark.parametrize(
    "data",
    [
        "Shot;Note\nKäfig;süß".encode("cp1252"),
        "Shot;Note\nKäfig;süß".encode("utf-8-sig"),
        "Shot\tNote\nKäfig\tsüß".encode("utf-16"),
        "Shot,Note\r\nKäfig,süß\r\n".encode(),
    ],
)
def test_files_of_every_encoding_and_delimiter_are_read(browser, shoot, data) -> None:
    page = browser.post(url("shot_table"), {"file": SimpleUploadedFile("shots.csv", data)})
    taken(browser, page, shoot)
    assert list(Shot.objects.values_list("title", "note")) == [("Käfig", "süß")]


def test_hostile_cells_are_shown_as_text_and_kept_harmless(browser, shoot) -> None:
    cell = "<img src=x onerror=alert(1)> \u202eevil\u0007 {{ 7 }} שלום 👩🏽‍🚀"
    page = browser.post(url("shot_table"), {"text": f"Shot\tNote\n{cell}\t{cell}"})
    text = page.content.decode()
    assert "<img src=x" not in text and "\u202e" not in text and "\u0007" not in text
    taken(browser, page, shoot)
    title = Shot.objects.get().title
    assert title == "<img src=x onerror=alert(1)> evil {{ 7 }} שלום 👩🏽‍🚀"
    for name in ("shot_list", "shot_pick", "shot_parts"):
        assert "<img src=x" not in browser.get(url(name)).content.decode()


def test_many_wrong_cells_leave_the_page_usable(browser, shoot) -> None:
    rows = "\n".join(f"Shot {n}\tages\tages\tround\tnearer\tages" for n in range(900))
    heads = "Shot\tMinutes\tFinals\tShapes\tFraming\tDay"
    page = browser.post(url("shot_table"), {"text": f"{heads}\n{rows}"})
    assert page.context["preview"].problems == 4500
    assert page.content.decode().count('name="cell-') == 0
    answer = taken(browser, page, shoot, leave="1", **{f"col-{n}": "" for n in range(1, 6)}, **{"col-0": "TITLE"})
    assert answer.status_code == 302 and Shot.objects.count() == 900


# Templates


def test_a_list_is_kept_and_put_behind_another(browser, shoot, studio) -> None:
    full_list(shoot)
    answer = browser.post(url("template_new"), {"name": "Hill packs", "note": "", "version": "0"})
    assert answer.status_code == 302
    template = ShotTemplate.objects.get()
    assert len(template.rows) == 3 and "PRODUCTS" not in template.rows[0] and "DAY" not in template.rows[0]
    other = factories.make_shoot(studio, code="26-002")
    factories.make_shot(other, title="First")
    browser.post(reverse("template_apply", args=["26-002", template.pk]), {"mark": list_mark(other)})
    made = list(Shot.objects.filter(shoot=other).with_parts())
    assert [shot.title for shot in made] == ["First", '=HYPERLINK("x","y")', "'=already marked", "x" * 160]
    assert (made[1].framing, made[1].shapes, made[1].mood, made[1].product) == (
        "WIDE",
        ["4:5", "landscape banner"],
        None,
        "",
    )
    assert made[1].finishing == "Flare; =Sky"
    again = browser.post(reverse("template_apply", args=["26-002", template.pk]), {"mark": "1-0"})
    assert again.status_code == 302 and Shot.objects.filter(shoot=other).count() == 4


def test_ticked_shots_are_kept_with_what_is_in_them(browser, shoot) -> None:
    shots = [factories.make_shot(shoot, title=f"Shot {n}", products=["Pack"]) for n in range(3)]
    picked = {"shot": [shots[0].pk, shots[2].pk]}
    page = browser.post(url("template_new"), picked)
    assert page.status_code == 200 and page.content.decode().count('name="shot"') == 2
    browser.post(url("template_new"), picked | {"name": "Two", "keeps_parts": "on", "version": "0"})
    assert [row["TITLE"] for row in ShotTemplate.objects.get().rows] == ["Shot 0", "Shot 2"]
    assert ShotTemplate.objects.get().rows[0]["PRODUCTS"] == "Pack"


def test_a_template_is_used_once_for_each_product(browser, shoot, studio) -> None:
    for name in ("Pack", "Vest"):
        factories.make_product(shoot, name=name)
    rows = [{"TITLE": "Front"}, {"TITLE": "Back"}]
    template = ShotTemplate.objects.create(studio=studio, name="Shop", rows=rows)
    browser.post(url("template_apply", template.pk), {"mark": "0-0", "each": "1"})
    assert [(shot.title, shot.product) for shot in Shot.objects.with_parts()] == [
        ("Pack: Front", "Pack"),
        ("Pack: Back", "Pack"),
        ("Vest: Front", "Vest"),
        ("Vest: Back", "Vest"),
    ]


def test_names_of_templates_are_taken_once_and_can_be_changed(browser, shoot, studio) -> None:
    ShotTemplate.objects.create(studio=studio, name="Shop", rows=[])
    other = ShotTemplate.objects.create(studio=studio, name="Hill", rows=[{"TITLE": "A"}])
    taken_name = browser.post(url("template_new"), {"name": "Shop", "version": "0"})
    assert list(taken_name.context["form"].errors) == ["name"]
    assert browser.post(url("template_edit", other.pk), {"name": "Shop", "version": "1"}).status_code == 422
    assert (
        browser.post(url("template_edit", other.pk), {"name": "Fell", "note": "n", "version": "1"}).status_code == 302
    )
    late = browser.post(url("template_edit", other.pk), {"name": "Late", "version": "1"})
    assert late.status_code == 422 and ShotTemplate.objects.get(pk=other.pk).name == "Fell"
    assert browser.post(url("template_remove", other.pk)).status_code == 302
    assert not ShotTemplate.objects.filter(pk=other.pk).exists()


def test_templates_of_another_studio_are_not_found(browser, shoot, other_studio) -> None:
    other = ShotTemplate.objects.create(studio=other_studio, name="Theirs", rows=[{"TITLE": "A"}])
    assert "Theirs" not in browser.get(url("template_list")).content.decode()
    for name in ("template_apply", "template_edit", "template_remove"):
        assert browser.post(url(name, other.pk), {"name": "x"}).status_code == 404


def test_every_word_of_the_demo_s_templates_is_understood(shoot) -> None:
    from shoots.demo.stage import read_facts
    from shoots.shotlist.core.columns import Column
    from shoots.shotlist.core.rows import read_cell
    from shoots.shotlist.queries import WORDS

    for entry in read_facts()["shot_templates"]:
        for row in entry["rows"]:
            assert row["TITLE"]
            for name, cell in row.items():
                assert read_cell(Column(name), cell, WORDS, {}) is not None
