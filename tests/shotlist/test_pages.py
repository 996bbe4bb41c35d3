"""The shot list in the browser: order, quick line, edits, and who may."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from shoots.shotlist import queries
from shoots.shotlist.actions import many
from shoots.shotlist.actions import shots as actions
from shoots.shotlist.core.columns import Column
from shoots.shotlist.core.rows import Finishing
from shoots.shotlist.models import Shot
from shoots.trail.models import Entry
from tests import factories


@pytest.fixture
def shoot(studio):
    return factories.make_shoot(studio, code="26-001")


@pytest.fixture
def shots(shoot):
    return [factories.make_shot(shoot, title=f"Shot {n}", position=n) for n in range(4)]


def url(name, *args):
    return reverse(name, args=["26-001", *args])


def titles(shoot) -> list[str]:
    return list(Shot.objects.filter(shoot=shoot).values_list("title", flat=True))


def typed(shot, **changes):
    return {
        "version": shot.version,
        "title": shot.title,
        "framing": "FULL",
        "shapes": "4:5",
        "priority": "MUST",
        "minutes": "20",
        "finals": "1",
        **changes,
    }


def test_a_typed_line_becomes_the_last_shot_and_the_next_line_waits(browser, shoot, shots) -> None:
    answer = browser.post(url("shot_add"), {"line": "Pack on wet stone, 4:5, 9:16, 15 min"})
    assert answer.status_code == 302
    shot = Shot.objects.get(title="Pack on wet stone")
    assert (shot.shapes, shot.minutes, shot.priority) == (["4:5", "9:16"], 15, "MUST")
    assert titles(shoot)[-1] == "Pack on wet stone"
    page = browser.get(answer["Location"]).content.decode()
    assert "autofocus" in page.partition('name="line"')[2].partition(">")[0]
    assert Entry.objects.filter(deed="added", shoot_code="26-001").count() == 1


@pytest.mark.parametrize("line", ["", "   ", "4:5, 15 min", "x" * 200])
def test_a_line_without_a_picture_in_it_is_refused_and_stays(browser, shoot, shots, line) -> None:
    page = browser.post(url("shot_add"), {"line": line})
    assert page.status_code == 422
    assert page.context["form"].errors["line"]
    assert f'value="{line}"' in page.content.decode() or not line.strip()
    assert len(titles(shoot)) == 4


def test_the_order_is_set_by_a_list_of_shots(browser, shoot, shots) -> None:
    a, b, c, d = (shot.pk for shot in shots)
    assert browser.post(url("shot_order"), {"shot": [d, b, a, c]}).status_code == 204
    assert titles(shoot) == ["Shot 3", "Shot 1", "Shot 0", "Shot 2"]


def test_an_order_from_an_older_page_loses_no_shot(browser, shoot, shots) -> None:
    a, b, c, d = (shot.pk for shot in shots)
    Shot.objects.get(pk=b).delete()
    browser.post(url("shot_order"), {"shot": [d, b, a, "x", "9" * 40]})
    assert titles(shoot) == ["Shot 3", "Shot 0", "Shot 2"]
    assert c


def test_another_shoot_s_shots_are_not_touched_by_an_order(browser, shoot, shots, studio) -> None:
    other = factories.make_shot(factories.make_shoot(studio), title="Elsewhere", position=9)
    browser.post(url("shot_order"), {"shot": [other.pk, shots[3].pk, shots[0].pk]})
    other.refresh_from_db()
    assert other.position == 9
    assert other.title not in titles(shoot)


def test_the_buttons_move_a_shot_without_script_and_keep_the_focus(browser, shoot, shots) -> None:
    answer = browser.post(url("shot_move", shots[2].pk), {"way": "up"})
    assert titles(shoot) == ["Shot 0", "Shot 2", "Shot 1", "Shot 3"]
    assert answer["Location"].endswith(f"#shot-{shots[2].pk}")
    text = browser.get(answer["Location"]).content.decode()
    row = text.partition(f'id="shot-{shots[2].pk}"')[2].partition("</li>")[0]
    assert "autofocus" in row.partition('value="up"')[2].partition(">")[0]
    browser.post(url("shot_move", shots[0].pk), {"way": "up"})
    assert titles(shoot)[0] == "Shot 0"


def test_moving_a_shot_does_not_spoil_an_edit_in_another_window(browser, shoot, shots) -> None:
    opened = typed(shots[0], title="Typed before the move")
    browser.post(url("shot_move", shots[0].pk), {"way": "down"})
    assert browser.post(url("shot_edit", shots[0].pk), opened).status_code == 302
    assert titles(shoot)[1] == "Typed before the move"


def test_an_edit_is_stored_with_its_light_and_place(browser, shoot, shots) -> None:
    setup, mood = factories.make_setup(shoot), factories.make_mood(shoot)
    answer = browser.post(
        url("shot_edit", shots[1].pk),
        typed(shots[1], shapes="9:16, square", setup=setup.pk, mood=mood.pk, framing="CLOSE", copy_space="top left"),
    )
    assert answer.status_code == 302
    shot = Shot.objects.get(pk=shots[1].pk)
    assert (shot.shapes, shot.setup, shot.mood, shot.framing) == (["9:16", "square"], setup, mood, "CLOSE")
    card = queries.shot_list(shoot).cards[1]
    assert card.state == "PLANNED"
    assert card.sketch.width == 56.25


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("title", ""),
        ("shapes", "4:5, blob"),
        ("minutes", "0"),
        ("minutes", "721"),
        ("minutes", "soon"),
        ("finals", "-1"),
        ("framing", "NEARER"),
        ("setup", "999999"),
    ],
)
def test_wrong_input_is_named_by_its_field_and_everything_typed_stays(browser, shoot, shots, field, value) -> None:
    page = browser.post(url("shot_edit", shots[0].pk), typed(shots[0], note="kept words") | {field: value})
    assert page.status_code == 422
    assert list(page.context["form"].errors) == [field]
    assert "kept words" in page.content.decode()
    assert Shot.objects.get(pk=shots[0].pk).version == shots[0].version


def test_a_shot_cannot_take_light_or_mood_of_another_shoot(browser, shoot, shots, studio) -> None:
    elsewhere = factories.make_shoot(studio)
    changes = {"setup": factories.make_setup(elsewhere).pk, "mood": factories.make_mood(elsewhere).pk}
    page = browser.post(url("shot_edit", shots[0].pk), typed(shots[0], **changes))
    assert sorted(page.context["form"].errors) == ["mood", "setup"]


def test_the_second_of_two_windows_is_told_and_loses_nothing(browser, shoot, shots) -> None:
    first, second = typed(shots[0], title="First"), typed(shots[0], title="Second")
    assert browser.post(url("shot_edit", shots[0].pk), first).status_code == 302
    late = browser.post(url("shot_edit", shots[0].pk), second)
    assert late.status_code == 422
    assert 'value="Second"' in late.content.decode()
    assert titles(shoot)[0] == "First"
    version = late.context["form"]["version"].value()
    assert browser.post(url("shot_edit", shots[0].pk), second | {"version": version}).status_code == 302
    assert titles(shoot)[0] == "Second"


def test_a_copy_stands_right_behind_and_was_not_taken(browser, shoot, shots) -> None:
    browser.post(url("shot_got", shots[1].pk), {"got": "1"})
    browser.post(url("shot_duplicate", shots[1].pk))
    assert titles(shoot) == ["Shot 0", "Shot 1", "Shot 1", "Shot 2", "Shot 3"]
    twins = Shot.objects.filter(title="Shot 1")
    assert [twin.got_at is None for twin in twins] == [False, True]


def test_a_removed_shot_is_gone_and_asking_twice_is_a_404(browser, shoot, shots) -> None:
    assert browser.post(url("shot_remove", shots[1].pk)).status_code == 302
    assert titles(shoot) == ["Shot 0", "Shot 2", "Shot 3"]
    assert browser.post(url("shot_remove", shots[1].pk)).status_code == 404


def test_got_is_a_fact_that_a_double_click_does_not_move(shoot, shots, owner, now) -> None:
    actions.mark_got(shot=shots[0], is_got=True, by=owner, now=now)
    actions.mark_got(shot=shots[0], is_got=True, by=owner, now=now.replace(year=2030))
    assert Shot.objects.get(pk=shots[0].pk).got_at == now
    actions.mark_got(shot=shots[0], is_got=False, by=owner, now=now)
    assert Shot.objects.get(pk=shots[0].pk).got_at is None
    assert Entry.objects.filter(deed__in=("got", "not got")).count() == 2


def test_minutes_are_summed_by_setup_in_the_setups_order(shoot) -> None:
    late = factories.make_setup(shoot, name="Wall", position=2)
    early = factories.make_setup(shoot, name="Rim", position=1)
    for setup, minutes in ((late, 30), (None, 10), (early, 15), (early, 5)):
        factories.make_shot(shoot, setup=setup, minutes=minutes)
    page = queries.shot_list(shoot)
    assert [(row.name, row.shots, row.minutes) for row in page.by_setup] == [
        ("Rim", 2, 20),
        ("Wall", 1, 30),
        ("", 1, 10),
    ]
    assert page.minutes == 60
    assert sum(row.share_percent for row in page.by_setup) == pytest.approx(100, abs=0.2)


def test_a_picture_takes_the_place_of_the_drawing_where_pages_above_have_one(shoot, shots) -> None:
    page = queries.shot_list(shoot, previews={shots[0].pk: "/pictures/1.jpg"}, delivered={shots[0].pk})
    assert page.cards[0].preview_url == "/pictures/1.jpg"
    assert page.cards[0].state == "DELIVERED"
    assert page.cards[1].preview_url == ""


def test_crew_read_the_shots_of_their_shoot_and_change_nothing(crew, signed_in, shoot, shots) -> None:
    browser = signed_in(crew)
    assert browser.get(url("shot_list")).status_code == 404
    factories.make_booking(shoot, person=factories.make_person(shoot.studio, email=crew.user.email))
    text = browser.get(url("shot_list")).content.decode()
    assert "Shot 2" in text
    assert "<form" not in text.partition("<main")[2]
    assert "£" not in text
    for name, args in (
        ("shot_add", ()),
        ("shot_order", ()),
        ("shot_edit", (shots[0].pk,)),
        ("shot_move", (shots[0].pk,)),
        ("shot_got", (shots[0].pk,)),
        ("shot_duplicate", (shots[0].pk,)),
        ("shot_remove", (shots[0].pk,)),
    ):
        assert browser.post(url(name, *args), {"line": "More", "way": "up"}).status_code == 403
    assert titles(shoot) == ["Shot 0", "Shot 1", "Shot 2", "Shot 3"]


def test_another_studio_s_shots_are_not_found(other_studio, signed_in, shoot, shots) -> None:
    browser = signed_in(factories.make_member(other_studio))
    assert browser.get(url("shot_list")).status_code == 404
    assert browser.get(url("shot_edit", shots[0].pk)).status_code == 404
    for name in ("shot_add", "shot_order"):
        assert browser.post(url(name), {"line": "x"}).status_code == 404
    for name in ("shot_edit", "shot_move", "shot_got", "shot_duplicate", "shot_remove"):
        assert browser.post(url(name, shots[0].pk)).status_code == 404


def test_a_shot_of_another_shoot_is_not_found_under_this_one(browser, shoot, studio) -> None:
    other = factories.make_shot(factories.make_shoot(studio))
    assert browser.get(url("shot_edit", other.pk)).status_code == 404
    assert browser.post(url("shot_remove", other.pk)).status_code == 404


def fill(shoot, number: int) -> None:
    """Add shots that have everything a shot may have, as quickly as a table does."""
    setups = [factories.make_setup(shoot, name=f"Setup {n}", position=n) for n in range(4)]
    mood = factories.make_mood(shoot)
    rows = [
        {
            Column.TITLE: f"Picture {n}",
            Column.SHAPES: ("4:5",),
            Column.SETUP: setups[n % 4].pk,
            Column.MOOD: mood.pk,
            Column.PRODUCTS: (f"Product {n % 9}",),
            Column.OUTFITS: (f"Outfit {n % 3}",),
            Column.SUBJECTS: ("Runner", f"Walker {n % 5}"),
            Column.FINISHING: (Finishing("Flare"),),
        }
        for n in range(number)
    ]
    many.add_rows(shoot=shoot, rows=rows, by=None, now=factories.NOW)


@pytest.mark.parametrize(
    "page", ["shot_list", "shot_pick", "shot_parts", "shot_table", "template_list", "template_new"]
)
def test_a_page_takes_the_same_queries_for_12_200_and_500_shots(browser, shoot, page) -> None:
    counts = []
    for number in (12, 188, 300):
        fill(shoot, number)
        browser.get(url(page))
        with CaptureQueriesContext(connection) as queries:
            assert browser.get(url(page)).status_code == 200
        counts.append(len(queries))
    assert Shot.objects.count() == 500
    assert counts[0] == counts[1] == counts[2] <= 40


def test_a_drag_over_500_shots_is_saved_in_a_few_queries(browser, shoot) -> None:
    fill(shoot, 500)
    keys = list(Shot.objects.values_list("pk", flat=True))
    wanted = [keys[-1], *keys[:-1]]
    with CaptureQueriesContext(connection) as queries:
        assert browser.post(url("shot_order"), {"shot": wanted}).status_code == 204
    assert len(queries) <= 12
    assert list(Shot.objects.values_list("pk", flat=True)) == wanted


def test_shots_that_are_drawn_alike_are_drawn_once(browser, shoot) -> None:
    fill(shoot, 60)
    page = browser.get(url("shot_list")).content.decode()
    assert page.count('<symbol id="d-') == 1 and page.count('<use href="#d-') == 60


def test_looking_at_the_list_changes_nothing(browser, shoot, shots) -> None:
    before = list(Shot.objects.values())
    for address in (url("shot_list"), url("shot_edit", shots[0].pk)):
        browser.get(address)
    assert browser.get(url("shot_move", shots[0].pk)).status_code == 405
    assert browser.get(url("shot_order")).status_code == 405
    assert list(Shot.objects.values()) == before


def test_what_cannot_be_seen_never_gets_into_the_list(browser, shoot, shots) -> None:
    browser.post(url("shot_add"), {"line": "Pack\u202e on\u0007 stone, 4:5"})
    assert titles(shoot)[-1] == "Pack on stone"
    browser.post(
        url("shot_edit", shots[0].pk), typed(shots[0], title="\u202eRunner\u0007", note="a\r\nb\u0000".strip("\0"))
    )
    assert (titles(shoot)[0], Shot.objects.get(pk=shots[0].pk).note) == ("Runner", "a\nb")
    page = browser.post(url("shot_edit", shots[1].pk), typed(shots[1], title="\u202e"))
    assert list(page.context["form"].errors) == ["title"]


def test_the_page_of_a_shot_says_what_each_cut_keeps_of_the_frame(browser, shoot, shots) -> None:
    Shot.objects.filter(pk=shots[0].pk).update(shapes=["3:2", "9:16"], orientation="LANDSCAPE")
    text = browser.get(url("shot_edit", shots[0].pk)).content.decode()
    assert "Of a landscape 3:2 frame:" in text and "3:2 keeps 100 %" in text and "9:16 keeps 38 %" in text
