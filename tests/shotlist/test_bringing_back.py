"""A list that was exported, filled in and brought back: each row is known as its shot, and changes it once."""

from __future__ import annotations

import csv
import io
import re
from datetime import timedelta
from html import unescape

import openpyxl
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from shoots.shotlist.actions import tables as actions
from shoots.shotlist.actions.many import ListChanged
from shoots.shotlist.core.columns import Column
from shoots.shotlist.models import FinishingItem, Product, Shot
from shoots.shotlist.queries import shot_table, table_look
from shoots.trail.models import Entry
from tests import factories
from tests.shotlist.test_tables import full_list, taken, text_of, url


@pytest.fixture
def shoot(studio):
    return factories.make_shoot(studio, code="26-001")


def exported(browser, kind="csv", **picked):
    return browser.get(url("shot_export", kind)).content


def looked(browser, data: bytes, kind: str = "csv"):
    return browser.post(url("shot_table"), {"file": SimpleUploadedFile(f"shots.{kind}", data)})


def filled_in(data: bytes, cells: dict[tuple[int, str], str], more=()) -> bytes:
    """Return an exported CSV with other cells, named by row from 1 and head, and with rows added."""
    rows = list(csv.reader(io.StringIO(data.decode("utf-8-sig"))))
    for (row, head), cell in cells.items():
        rows[row][rows[0].index(head)] = cell
    for row in more:
        rows.append([row.get(head, "") for head in rows[0]])
    file = io.StringIO()
    csv.writer(file).writerows(rows)
    return file.getvalue().encode("utf-8-sig")


def statements(page) -> list[str]:
    cells = re.findall(r'<td class="does">(.*?)</td>', page.content.decode(), re.DOTALL)
    return [" ".join(unescape(re.sub(r"<[^>]+>", "", cell)).split()) for cell in cells]


def many_shots(shoot, number: int) -> None:
    dangerous = ["=1+1", "+2", "-3", "@4", "'=5", "' =6", "plain"]
    Shot.objects.bulk_create(
        Shot(
            studio=shoot.studio,
            shoot=shoot,
            title=f"{dangerous[n % 7]} shot {n // 2}",  # every other title stands twice or alike
            position=n,
            note=f"{dangerous[(n + 3) % 7]}\n{n}",
            purpose=dangerous[(n + 1) % 7],
            shapes=["4:5"] if n % 2 else [],
            placements=["WEB_SHOP"] if n % 3 else [],
        )
        for n in range(number)
    )


@pytest.mark.parametrize("kind", ["csv", "xlsx"])
@pytest.mark.parametrize("number", [0, 1, 500])
def test_an_exported_list_that_is_brought_back_says_as_it_is_of_every_shot(browser, shoot, kind, number) -> None:
    many_shots(shoot, number)
    before = shot_table(shoot)
    page = looked(browser, exported(browser, kind), kind)
    assert page.status_code == 200
    assert statements(page) == [f"as it is (shot {n})" for n in range(1, number + 1)]
    assert "There is nothing to take over" in page.content.decode()
    refused = taken(browser, page, shoot)
    assert refused.status_code == 422 and shot_table(shoot) == before
    assert Shot.objects.count() == number and set(Shot.objects.values_list("version", flat=True)) <= {1}
    assert not Entry.objects.filter(deed__in=("edited together", "shots added")).exists()


@pytest.mark.parametrize("kind", ["csv", "xlsx"])
def test_every_column_comes_back_as_it_is_also_names_that_no_table_may_use_now(browser, shoot, now, kind) -> None:
    full_list(shoot)
    first = Shot.objects.filter(shoot=shoot).first()
    first.place.put_away_at = now
    first.place.save()
    first.shapes = ["blob of an older release"]
    first.save()
    page = looked(browser, exported(browser, kind), kind)
    assert [row.is_same for row in page.context["preview"].rows] == [True] * 3
    assert page.context["preview"].problems == 0


def test_the_first_column_is_the_place_in_the_whole_list(browser, shoot) -> None:
    shots = [factories.make_shot(shoot, title=f"Shot {n}", position=n) for n in range(3)]
    picked = browser.post(url("shot_export", "xlsx"), {"shot": [shots[2].pk]}).content
    sheet = openpyxl.load_workbook(io.BytesIO(picked)).active
    assert [cell.value for cell in sheet["A"]] == ["Number", 3]


def test_rows_say_in_words_what_they_do_and_do_it_once(browser, shoot) -> None:
    factories.make_mood(shoot, name="Storm coming")
    for n, title in enumerate(("Pack", "Vest", "Boots")):
        factories.make_shot(shoot, title=title, position=n, note="dry", products=["Pack"], minutes=20)
    data = filled_in(
        exported(browser),
        {
            (1, "Minutes"): "30",
            (1, "Note"): "",
            (1, "What it is for"): "Cover",
            (3, "What is in it"): "Boots in mud",
            (3, "Products"): "Boots; pack",
            (3, "Mood"): "storm coming",
        },
        more=[{"What is in it": "Lamp", "Minutes": "5"}],
    )
    page = looked(browser, data)
    assert statements(page) == [
        "changes shot 1: what it is for from nothing to “Cover”; minutes 20 to 30; note “dry” to nothing",
        "as it is (shot 2)",
        "changes shot 3: what is in it “Boots” to “Boots in mud”; products “Pack” to “Boots; pack”;"
        " mood from nothing to “Storm coming”",
        "new",
    ]
    text = page.content.decode()
    assert "matched by its number alone" in text and "The order of the list stays" in text
    answer = taken(browser, page, shoot)
    assert answer.status_code == 302 and answer.url == url("shot_changed")
    shots = list(Shot.objects.filter(shoot=shoot).with_parts())
    assert [(s.title, s.minutes, s.note, s.purpose, s.product, str(s.mood or ""), s.version) for s in shots] == [
        ("Pack", 30, "", "Cover", "Pack", "", 2),
        ("Vest", 20, "dry", "", "Pack", "", 1),
        ("Boots in mud", 20, "dry", "", "Pack; Boots", "Storm coming", 2),
        ("Lamp", 5, "", "", "", "", 1),
    ]
    entries = Entry.objects.filter(deed="edited together")
    assert [entry.record for entry in entries.order_by("pk")] == [f"shot:{shots[0].pk}", f"shot:{shots[2].pk}"]
    assert entries.get(record=f"shot:{shots[0].pk}").changes["minutes"] == [20, 30]
    assert Entry.objects.get(deed="shots added").changes == {"shots": [0, 1]}
    changed = browser.get(answer.url).content.decode()
    assert "Boots in mud" in changed and "1 shot was added with it" in changed
    # The second click of two finds another list: nothing is written, and every row is as it is.
    again = taken(browser, page, shoot)
    assert again.status_code == 422 and "nothing was written" in again.content.decode()
    assert {one.split(" (")[0] for one in statements(again)} == {"as it is"}
    assert Shot.objects.count() == 4 and Shot.objects.get(title="Pack").version == 2


def test_what_a_table_changed_is_put_back_and_what_it_added_stays(browser, shoot) -> None:
    full_list(shoot)
    before = shot_table(shoot)
    heads = [head for head in before[0] if head not in ("Number", "What is in it", "Framing", "Must or wish")]
    cells = {(1, head): "" for head in heads} | {(2, "What is in it"): "Other", (2, "Note"): "wet"}
    page = looked(browser, filled_in(exported(browser), cells, more=[{"What is in it": "Lamp"}]))
    assert taken(browser, page, shoot).status_code == 302
    emptied = dict(zip(before[0], shot_table(shoot)[1], strict=True))
    assert {head for head in heads if emptied[head]} == {"Minutes", "Finished pictures"}
    assert not FinishingItem.objects.exists()
    assert browser.post(url("shot_undo")).status_code == 302
    assert shot_table(shoot)[:4] == before
    assert Shot.objects.filter(title="Lamp").exists()
    assert set(Shot.objects.exclude(title="Lamp").values_list("version", flat=True)) == {1, 3}


def test_rows_that_differ_are_added_once_more_when_that_is_chosen(browser, shoot) -> None:
    for n, title in enumerate(("Pack", "Vest")):
        factories.make_shot(shoot, title=title, position=n)
    page = browser.post(url("shot_table"), {"text": "Shot\tMinutes\nPack\t30\nVest\t20\nLamp\t5"})
    data = {"text": text_of(page), "mark": page.context["mark"], "head": "1", "listed": "add"}
    page = browser.post(url("shot_table"), {**data, "step": "look"})
    assert statements(page) == ["added once more; shot 1 stays", "as it is (shot 2)", "new"]
    assert taken(browser, page, shoot, listed="add").status_code == 302
    assert list(Shot.objects.values_list("title", "minutes")) == [("Pack", 20), ("Vest", 20), ("Pack", 30), ("Lamp", 5)]


def test_columns_that_are_not_in_the_table_are_left_alone(browser, shoot) -> None:
    full_list(shoot)
    before = dict(zip(*shot_table(shoot)[:2], strict=True))
    page = browser.post(url("shot_table"), {"text": "Number\tMinutes\n1\t50"})
    assert taken(browser, page, shoot).status_code == 302
    assert dict(zip(*shot_table(shoot)[:2], strict=True)) == {**before, "Minutes": "50"}


@pytest.mark.parametrize("deed", ["edited", "added", "moved", "removed", "renamed product", "finishing"])
def test_a_list_that_says_something_else_since_is_shown_anew_and_nothing_is_written(browser, shoot, deed) -> None:
    shots = [factories.make_shot(shoot, title=f"Shot {n}", position=n, products=["Pack"]) for n in range(3)]
    data = filled_in(
        exported(browser), {(1, "Minutes"): "30", (3, "What is in it"): "Other"}, [{"What is in it": "New"}]
    )
    page = looked(browser, data)
    match deed:
        case "edited":
            Shot.objects.filter(pk=shots[1].pk).update(version=2)
        case "added":
            factories.make_shot(shoot, title="Theirs", position=9)
        case "moved":
            Shot.objects.filter(pk=shots[0].pk).update(position=8)
        case "removed":
            shots[2].delete()
        case "renamed product":
            Product.objects.update(name="Pack, slate")
        case "finishing":
            FinishingItem.objects.create(studio=shoot.studio, shot=shots[0], what="Flare")
    before, entries = list(Shot.objects.values()), Entry.objects.count()
    refused = taken(browser, page, shoot)
    assert refused.status_code == 422 and "nothing was written" in refused.content.decode()
    assert list(Shot.objects.values()) == before and Entry.objects.count() == entries
    assert Product.objects.count() == 1
    # It was shown anew: what is looked at now can be taken over.
    assert taken(browser, refused, shoot).status_code == 302
    assert Shot.objects.filter(title="New").exists()


def test_an_edit_between_the_look_and_the_writing_leaves_all_as_it_was(shoot, owner, now) -> None:
    """The list is compared once more inside the transaction: also the new rows and new names are not written."""
    shots = [factories.make_shot(shoot, title=f"Shot {n}", position=n) for n in range(2)]
    seen = [(shot.pk, 1) for shot in shots]
    Shot.objects.filter(pk=shots[1].pk).update(version=2)
    before = list(Shot.objects.values())
    with pytest.raises(ListChanged):
        actions.take_table(
            shoot=shoot,
            rows=[{Column.TITLE: "New", Column.PRODUCTS: ("Vest",)}],
            edits={shots[0].pk: {Column.MINUTES: 5}},
            seen=seen,
            by=owner,
            now=now,
        )
    assert list(Shot.objects.values()) == before and not Product.objects.exists()


def test_shots_of_another_shoot_are_never_a_row_s(browser, shoot, studio) -> None:
    other = factories.make_shot(factories.make_shoot(studio, code="26-002"), title="Pack")
    page = browser.post(url("shot_table"), {"text": "Number\tShot\tMinutes\n1\tPack\t55"})
    assert statements(page) == ["new"]
    taken(browser, page, shoot)
    other.refresh_from_db()
    assert other.minutes == 20


def test_a_sheet_that_crew_exported_clears_no_price(browser, crew, signed_in, shoot) -> None:
    full_list(shoot)
    factories.make_booking(shoot, person=factories.make_person(shoot.studio, email=crew.user.email))
    sheet = exported(signed_in(crew))
    assert b"30.00" not in sheet
    assert [row.is_same for row in looked(browser, sheet).context["preview"].rows] == [True] * 3
    page = looked(browser, filled_in(sheet, {(1, "Planned finishing"): "Flare × 3; Glow"}))
    assert statements(page)[0] == (
        "changes shot 1: planned finishing “Flare × 2 @ 30.00; =Sky” to “Flare × 3 @ 30.00; Glow”"
    )
    taken(browser, page, shoot)
    found = FinishingItem.objects.values_list("what", "pictures", "price")
    assert [(what, pictures, price and str(price)) for what, pictures, price in found] == [
        ("Flare", 3, "30.00"),
        ("Glow", None, None),
    ]


def test_a_cell_of_a_shot_that_is_there_is_mended_in_place(browser, shoot) -> None:
    factories.make_shot(shoot, title="Pack")
    page = browser.post(url("shot_table"), {"text": "Shot\tMinutes\nPack\tages"})
    assert 'name="cell-0-1" value="ages"' in page.content.decode()
    refused = taken(browser, page, shoot)
    assert refused.status_code == 422 and Shot.objects.get().minutes == 20
    assert taken(browser, refused, shoot, **{"cell-0-1": "45"}).status_code == 302
    assert Shot.objects.get().minutes == 45


def test_hostile_cells_are_text_in_what_a_row_does(browser, shoot) -> None:
    factories.make_shot(shoot, title="Pack", note="<b>old</b>")
    page = browser.post(url("shot_table"), {"text": "Shot\tNote\nPack\t<img src=x onerror=alert(1)>"})
    assert "<img src=x" not in page.content.decode() and "<b>old" not in page.content.decode()
    assert statements(page) == ["changes shot 1: note “<b>old</b>” to “<img src=x onerror=alert(1)>”"]
    answer = taken(browser, page, shoot)
    assert "<img src=x" not in browser.get(answer.url).content.decode()


def test_looking_and_taking_over_ask_as_much_of_the_database_for_ten_shots_as_for_500(
    browser, studio, owner, now
) -> None:
    asked = []
    for number in (10, 500):
        shoot = factories.make_shoot(studio, code=f"26-{number}")
        factories.make_mood(shoot, name="Storm coming")
        many_shots(shoot, number)
        table = [list(row) for row in shot_table(shoot)]
        minutes, mood, products = (table[0].index(head) for head in ("Minutes", "Mood", "Products"))
        for n, row in enumerate(table[1:]):
            row[minutes] = str(21 + n % 9)
            row[mood], row[products] = "Storm coming", f"Pack; Vest {n % 2}"
        with CaptureQueriesContext(connection) as looking:
            look = table_look(shoot, table)
        assert look.preview.differing == number
        with CaptureQueriesContext(connection) as writing:
            done = actions.take_table(
                shoot=shoot,
                rows=look.preview.good,
                edits={edit.pk: edit.values for edit in look.preview.edits},
                seen=look.seen,
                by=owner,
                now=now + timedelta(minutes=1),
            )
        assert len(done.changed) == number
        assert table_look(shoot, table).preview.same == number
        # SQLite takes so many values at once; what is written comes in portions there.
        reads = [q["sql"] for q in writing if q["sql"].startswith("SELECT")]
        asked.append((len(looking), len(reads)))
    assert asked[0] == asked[1]


def test_the_page_to_import_says_what_brings_a_list_back(browser, shoot) -> None:
    text = browser.get(reverse("shot_table", args=["26-001"])).content.decode()
    assert "The order of the list does not change by that" in text and "Number" in text
