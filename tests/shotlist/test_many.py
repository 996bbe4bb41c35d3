"""Many shots at once: added, edited together, put back, taken off; one transaction, versions checked."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from shoots.shotlist.actions import many
from shoots.shotlist.actions.many import FinishingChange, How, ListChanged, PartChange, ShotsEditedMeanwhile
from shoots.shotlist.actions.parts import FinishingWanted
from shoots.shotlist.core.columns import Column
from shoots.shotlist.core.rows import Finishing
from shoots.shotlist.models import FinishingItem, Product, Shot
from shoots.trail.models import Entry
from tests import factories


@pytest.fixture
def shoot(studio):
    return factories.make_shoot(studio, code="26-001")


@pytest.fixture
def shots(shoot):
    return [factories.make_shot(shoot, title=f"Shot {n}", position=n, products=["Pack"]) for n in range(4)]


def seen(shots) -> dict[int, int]:
    return {shot.pk: Shot.objects.get(pk=shot.pk).version for shot in shots}


def state(shoot) -> list[tuple]:
    """Everything that a list says, without versions."""
    return [
        (
            *(
                getattr(shot, name)
                for name in ("title", "framing", "shapes", "minutes", "mood_id", "setup_id", "moment", "priority")
            ),
            shot.product,
            shot.outfit,
            shot.people,
            [(item.what, item.pictures, item.price) for item in shot.finishing_items.all()],
        )
        for shot in Shot.objects.filter(shoot=shoot).with_parts()
    ]


def test_rows_become_shots_behind_the_others_and_new_names_rows(shoot, shots, owner, now) -> None:
    mood = factories.make_mood(shoot)
    rows = [
        {
            Column.TITLE: "A",
            Column.SHAPES: ("4:5", "9:16"),
            Column.PRODUCTS: ("PACK", "Vest"),
            Column.MOOD: mood.pk,
            Column.MINUTES: 5,
            Column.FINISHING: (Finishing("Flare", 2, Decimal("30.00")),),
        },
        {Column.TITLE: "B", Column.PRODUCTS: ("vest",), Column.SUBJECTS: ("Runner",), Column.PLACEMENTS: ("WEB_SHOP",)},
    ]
    made = many.add_rows(shoot=shoot, rows=rows, by=owner, now=now)
    assert list(Shot.objects.values_list("title", flat=True)) == ["Shot 0", "Shot 1", "Shot 2", "Shot 3", "A", "B"]
    a, b = Shot.objects.with_parts().filter(pk__in=[shot.pk for shot in made])
    assert (a.shapes, a.product, a.mood, a.minutes, a.finishing) == (["4:5", "9:16"], "Pack; Vest", mood, 5, "Flare")
    assert (b.product, b.people, b.placements, b.minutes, b.framing) == ("Vest", "Runner", ["WEB_SHOP"], 20, "FULL")
    assert Product.objects.count() == 2
    assert Entry.objects.get(deed="shots added").changes == {"shots": [0, 2]}


def test_the_second_of_two_clicks_adds_nothing(shoot, shots, owner, now) -> None:
    mark = many.list_mark(shoot)
    many.add_rows(shoot=shoot, rows=[{Column.TITLE: "A"}], seen_mark=mark, by=owner, now=now)
    with pytest.raises(ListChanged):
        many.add_rows(shoot=shoot, rows=[{Column.TITLE: "A"}], seen_mark=mark, by=owner, now=now)
    assert Shot.objects.filter(title="A").count() == 1


@pytest.mark.parametrize("number", [10, 400])
def test_rows_are_added_in_as_few_queries_however_many(shoot, owner, now, number) -> None:
    rows = [{Column.TITLE: f"A {n}", Column.PRODUCTS: ("Pack",), Column.SUBJECTS: ("Leo",)} for n in range(number)]
    with CaptureQueriesContext(connection) as queries:
        many.add_rows(shoot=shoot, rows=rows, by=owner, now=now)
    # SQLite takes so many values in one statement; the rest is the same.
    assert len([q for q in queries if "INSERT" not in q["sql"]]) <= 10


def test_fields_are_set_together_and_the_trail_says_what_changed(shoot, shots, owner, now) -> None:
    setup = factories.make_setup(shoot, name="Rim")
    told = many.edit_many(
        shoot=shoot,
        seen=seen(shots[:3]),
        changes={"setup": setup, "minutes": 30, "moment": "DUSK", "shapes": ["9:16"]},
        parts={"products": PartChange(How.ADD, ("Vest",)), "outfits": PartChange(How.REPLACE, ("Storm kit",))},
        finishing=FinishingChange(How.ADD, (FinishingWanted("Flare"),)),
        by=owner,
        now=now,
    )
    assert [change.title for change in told] == ["Shot 0", "Shot 1", "Shot 2"]
    assert told[0].changes == {
        "setup": ("", "Rim"),
        "minutes": (20, 30),
        "moment": ("Any time", "After sunset"),
        "shapes": ("4:5", "9:16"),
        "products": ("Pack", "Pack; Vest"),
        "outfits": ("", "Storm kit"),
        "finishing": ("", "Flare"),
    }
    first, *_rest, last = Shot.objects.with_parts()
    assert (first.setup, first.product, first.outfit, first.finishing) == (setup, "Pack; Vest", "Storm kit", "Flare")
    assert (last.setup, last.product, last.version) == (None, "Pack", 1)
    entries = Entry.objects.filter(deed="edited together")
    assert entries.count() == 3 and entries[0].changes["minutes"] == [20, 30]


def test_shots_that_said_so_already_are_left_alone(shoot, shots, owner, now) -> None:
    Shot.objects.filter(pk=shots[0].pk).update(minutes=30)
    told = many.edit_many(shoot=shoot, seen=seen(shots), changes={"minutes": 30}, by=owner, now=now)
    assert [change.title for change in told] == ["Shot 1", "Shot 2", "Shot 3"]
    assert Shot.objects.get(pk=shots[0].pk).version == 1


def test_parts_and_finishing_are_taken_away(shoot, shots, owner, now) -> None:
    FinishingItem.objects.create(studio=shoot.studio, shot=shots[0], what="Flare")
    many.edit_many(
        shoot=shoot,
        seen=seen(shots),
        changes={},
        parts={"products": PartChange(How.REMOVE, (Product.objects.get(),))},
        finishing=FinishingChange(How.REMOVE, (FinishingWanted("flare"),)),
        by=owner,
        now=now,
    )
    assert {(shot.product, shot.finishing) for shot in Shot.objects.with_parts()} == {("", "")}


def test_one_that_was_saved_meanwhile_keeps_all_as_they_are(shoot, shots, owner, now) -> None:
    opened = seen(shots)
    Shot.objects.filter(pk=shots[1].pk).update(version=2)
    before = state(shoot)
    changes = {"minutes": 30}
    parts = {"products": PartChange(How.REPLACE, ("Vest",))}
    with pytest.raises(ShotsEditedMeanwhile) as told:
        many.edit_many(shoot=shoot, seen=opened, changes=changes, parts=parts, by=owner, now=now)
    assert told.value.titles == ("Shot 1",) and state(shoot) == before
    assert not Product.objects.filter(name="Vest").exists()


def test_shots_of_another_shoot_count_as_gone(shoot, shots, studio, owner, now) -> None:
    other = factories.make_shot(factories.make_shoot(studio))
    picked = seen([*shots, other])
    for deed in (many.remove_many, lambda **rest: many.edit_many(changes={"minutes": 9}, **rest)):
        with pytest.raises(ShotsEditedMeanwhile) as told:
            deed(shoot=shoot, seen=picked, by=owner, now=now)
        assert told.value.gone == 1
    assert Shot.objects.filter(minutes=20).count() == 5


def test_an_edit_is_put_back_whole(shoot, shots, owner, now) -> None:
    FinishingItem.objects.create(studio=shoot.studio, shot=shots[0], what="Flare", pictures=2, price=Decimal(30))
    before = state(shoot)
    told = many.edit_many(
        shoot=shoot,
        seen=seen(shots),
        changes={"mood": factories.make_mood(shoot), "minutes": 5, "priority": "WISH", "shapes": []},
        parts={
            "products": PartChange(How.REPLACE, ("Vest",)),
            "subjects": PartChange(How.ADD, ("Leo",)),
        },
        finishing=FinishingChange(How.REPLACE, ()),
        by=owner,
        now=now,
    )
    assert state(shoot) != before
    assert many.undo_many(shoot=shoot, before={c.pk: c.before for c in told}, by=owner, now=now) == 4
    assert state(shoot) == before
    with pytest.raises(ShotsEditedMeanwhile):
        many.undo_many(shoot=shoot, before={c.pk: c.before for c in told}, by=owner, now=now)


@pytest.mark.parametrize("number", [12, 300])
def test_many_are_edited_and_put_back_in_as_few_queries_however_many(shoot, owner, now, number) -> None:
    shots = Shot.objects.bulk_create(
        Shot(studio=shoot.studio, shoot=shoot, title=f"Shot {n}", position=n) for n in range(number)
    )
    picked = {shot.pk: 1 for shot in shots}
    with CaptureQueriesContext(connection) as queries:
        told = many.edit_many(
            shoot=shoot,
            seen=picked,
            changes={"minutes": 30},
            parts={"products": PartChange(How.ADD, ("Pack",))},
            by=owner,
            now=now,
        )
    assert len([q for q in queries if "INSERT" not in q["sql"]]) <= 12
    with CaptureQueriesContext(connection) as queries:
        many.undo_many(shoot=shoot, before={c.pk: c.before for c in told}, by=owner, now=now)
    assert len([q for q in queries if "INSERT" not in q["sql"] and "UPDATE" not in q["sql"]]) <= 24


def test_picked_shots_are_taken_off_in_one_go(shoot, shots, owner, now) -> None:
    assert many.remove_many(shoot=shoot, seen=seen(shots[1:3]), by=owner, now=now) == 2
    assert list(Shot.objects.values_list("title", flat=True)) == ["Shot 0", "Shot 3"]
    assert Entry.objects.filter(deed="removed").count() == 2
