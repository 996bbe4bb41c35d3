"""The trail as pages read it."""

from __future__ import annotations

from datetime import datetime, timedelta

from shoots.members.models import Member, Studio
from shoots.trail import actions
from shoots.trail.models import Entry
from shoots.trail.queries import history_of, shoot_history
from tests import factories


def test_the_same_deed_in_a_row_is_one_line(studio: Studio, owner: Member, now: datetime) -> None:
    shoot = factories.make_shoot(studio)
    for n in range(3):
        shot = factories.make_shot(shoot)
        actions.record(shot, "added", by=owner, shoot_code=shoot.code, at=now + timedelta(minutes=n))
    actions.record(shoot, "put_away", by="Mara Quill", shoot_code=shoot.code, at=now + timedelta(minutes=9))
    found = shoot_history(studio=studio, shoot_code=shoot.code, most=10)
    assert [(deed.who, deed.thing, deed.deed, deed.times) for deed in found.deeds] == [
        ("Mara Quill", "Shoot", "put away", 1),
        (str(owner.user), "Shot", "added", 3),
    ]
    assert not found.has_more


def test_a_history_is_of_one_shoot_of_one_studio(
    studio: Studio, other_studio: Studio, owner: Member, now: datetime
) -> None:
    here = factories.make_shoot(studio, code="26-004")
    there = factories.make_shoot(other_studio, code="26-004")
    other = factories.make_shoot(studio, code="26-005")
    for shoot in (here, there, other):
        actions.record(shoot, "edited", by=None, shoot_code=shoot.code, at=now)
    assert len(shoot_history(studio=studio, shoot_code="26-004", most=10).deeds) == 1


def test_a_history_is_read_in_pages(studio: Studio, owner: Member, now: datetime) -> None:
    shoot = factories.make_shoot(studio)
    for n in range(5):
        actions.record(shoot, f"deed {n}", by=owner, shoot_code=shoot.code, at=now + timedelta(minutes=n))
    first = shoot_history(studio=studio, shoot_code=shoot.code, most=3)
    rest = shoot_history(studio=studio, shoot_code=shoot.code, most=3, skip=3)
    assert [deed.deed for deed in first.deeds] == ["deed 4", "deed 3", "deed 2"]
    assert first.has_more
    assert [deed.deed for deed in rest.deeds] == ["deed 1", "deed 0"]
    assert not rest.has_more


def test_a_deed_that_begins_with_the_name_of_its_thing_does_not_say_it_twice(
    studio: Studio, owner: Member, now: datetime
) -> None:
    shoot = factories.make_shoot(studio)
    day = factories.make_day(shoot)
    actions.record(day, "day_wrapped", by=owner, shoot_code=shoot.code, at=now)
    deed = shoot_history(studio=studio, shoot_code=shoot.code, most=5).deeds[0]
    assert (deed.thing, deed.deed) == ("Shoot day", "wrapped")


def test_a_record_of_a_model_that_is_gone_still_reads(studio: Studio, now: datetime) -> None:
    Entry.objects.create(studio=studio, at=now, deed="polished", record="lens_cap:3", shoot_code="26-004")
    deed = shoot_history(studio=studio, shoot_code="26-004", most=10).deeds[0]
    assert (deed.thing, deed.deed, deed.who) == ("Lens cap", "polished", "")


def test_a_records_history_names_the_fields_as_pages_do(studio: Studio, owner: Member, now: datetime) -> None:
    shoot = factories.make_shoot(studio)
    actions.record(shoot, "edited", by=owner, changes={"po_number": ("", "PO-7"), "gone": (1, 2)}, at=now)
    assert history_of(shoot, studio=studio)[0].fields == ("purchase order", "gone")


def test_values_that_json_does_not_know_are_kept_as_text(studio: Studio, owner: Member, now: datetime) -> None:
    shoot = factories.make_shoot(studio)
    actions.record(shoot, "edited", by=owner, changes={"due": (None, now.date())}, at=now)
    assert Entry.objects.get().changes == {"due": [None, "2026-05-14"]}


def test_somebody_who_left_keeps_their_name_in_the_trail(studio: Studio, owner: Member, now: datetime) -> None:
    shoot = factories.make_shoot(studio)
    gone = factories.make_member(studio, name="Rae Holt")
    actions.record(shoot, "edited", by=gone, shoot_code=shoot.code, at=now)
    gone.user.delete()
    assert shoot_history(studio=studio, shoot_code=shoot.code, most=5).deeds[0].who == "Rae Holt"
