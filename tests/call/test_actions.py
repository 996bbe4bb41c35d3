"""What happens to calls and drafts: saving, reading again, deciding, and writing into the shoot."""

from __future__ import annotations

import uuid
from collections.abc import Callable
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any

import pytest

from shoots.brief.models import Brief, Mood
from shoots.call import actions
from shoots.call.core.drafts import DraftKind
from shoots.call.models import LONGEST_NOTES, Call, Draft, DraftState
from shoots.call.queries import page
from shoots.members.actions import EditedMeanwhile
from shoots.members.models import Member, Studio
from shoots.shoot.models import Shoot, ShootDay
from shoots.shotlist.models import Priority, Shot
from shoots.trail.models import Entry
from tests.factories import make_place, make_shoot

pytestmark = pytest.mark.django_db

Begin = Callable[..., Call]


@pytest.fixture
def begin(studio: Studio, owner: Member, now: datetime) -> Begin:
    def begin_call(notes: str = "", **given: Any) -> Call:
        return actions.begin_call(studio=studio, notes=notes, by=owner, now=now, **given)

    return begin_call


def draft_of(call: Call, kind: DraftKind, **fields: Any) -> Draft:
    return Draft.objects.get(call=call, kind=kind, **fields)


def accept_all(call: Call, by: Member, now: datetime) -> None:
    for draft in Draft.objects.filter(call=call, state=DraftState.OPEN):
        actions.accept_draft(draft=draft, by=by, now=now)


# saving


def test_a_call_keeps_its_notes_reads_them_and_enters_nothing(begin: Begin, studio: Studio) -> None:
    call = begin("12 finals, 4:5", caller="Mara Quill", shoot=make_shoot(studio))
    assert {draft.kind for draft in call.drafts.all()} == {DraftKind.COUNT, DraftKind.SHAPE}
    assert all(draft.is_open for draft in call.drafts.all())
    brief = Brief.objects.get(shoot=call.shoot)
    assert (brief.finals_wanted, brief.shapes) == (None, [])
    assert "term" in [question["code"] for question in call.questions]


def test_the_same_key_twice_makes_one_call(begin: Begin) -> None:
    key, window = uuid.uuid4(), "one"
    first = begin("12 finals", key=key, window=window)
    second = begin("12 finals, 4:5", key=key, window=window)
    assert first.pk == second.pk and Call.objects.get().notes == "12 finals, 4:5"


def test_a_key_of_another_studio_is_no_key_of_ours(begin: Begin, other_studio: Studio, now: datetime) -> None:
    key = uuid.uuid4()
    Call.objects.create(studio=other_studio, key=key, called_at=now, notes="theirs")
    assert begin("ours", key=key).notes == "ours" and Call.objects.count() == 2


def test_the_second_of_two_windows_is_told_and_writes_nothing(begin: Begin, owner: Member, now: datetime) -> None:
    call = begin("one", window="a")
    actions.save_notes(call=call, notes="two", caller="", seen_version=1, window="a", by=owner, now=now)
    with pytest.raises(EditedMeanwhile):
        actions.save_notes(call=call, notes="other", caller="", seen_version=1, window="b", by=owner, now=now)
    assert Call.objects.get().notes == "two"


def test_a_window_whose_answer_got_lost_may_save_on(begin: Begin, owner: Member, now: datetime) -> None:
    call = begin("one", window="a")
    for notes in ("two", "three"):
        actions.save_notes(call=call, notes=notes, caller="", seen_version=1, window="a", by=owner, now=now)
    assert Call.objects.get().notes == "three"


def test_sending_the_same_notes_again_changes_nothing(begin: Begin, owner: Member, now: datetime) -> None:
    call = begin("one")
    actions.save_notes(call=call, notes="one", caller="", seen_version=0, by=owner, now=now)
    assert Call.objects.get().version == 1


def test_notes_that_are_too_long_are_refused_and_the_old_ones_stay(begin: Begin, owner: Member, now: datetime) -> None:
    call = begin("one")
    with pytest.raises(actions.NotesTooLong):
        actions.save_notes(
            call=call, notes="é" * (LONGEST_NOTES // 2 + 1), caller="", seen_version=1, by=owner, now=now
        )
    assert Call.objects.get().notes == "one"
    actions.save_notes(call=call, notes="é" * (LONGEST_NOTES // 2), caller="", seen_version=1, by=owner, now=now)
    assert len(Call.objects.get().notes.encode()) == LONGEST_NOTES


def test_of_very_long_notes_all_is_kept_and_the_beginning_is_read(begin: Begin) -> None:
    call = begin("4:5\n" + "a line of talk\n" * 12_000 + "9:16")
    assert [draft.words for draft in call.drafts.all()] == ["4:5"]
    assert call.notes.endswith("9:16") and page.call_page(call).is_cut
    assert not page.call_page(begin("4:5")).is_cut


def test_control_characters_go_and_the_rest_stays(begin: Begin) -> None:
    assert begin("a\x00b\x07\tc\r\nd\u202e").notes == "ab\tc\nd\u202e"


def test_typing_for_ten_minutes_leaves_one_entry_in_the_trail(begin: Begin, owner: Member, now: datetime) -> None:
    call = begin("a")
    for n in range(1, 12):
        actions.save_notes(
            call=call,
            notes="a" * (n + 1),
            caller="",
            seen_version=call.version,
            by=owner,
            now=now + timedelta(minutes=n),
        )
    assert Entry.objects.filter(deed="call_noted").count() == 2


# reading again


def test_a_decision_stays_when_the_line_goes_on(begin: Begin, owner: Member, now: datetime) -> None:
    call = begin("12 finals")
    actions.accept_draft(draft=draft_of(call, DraftKind.COUNT), by=owner, now=now)
    actions.save_notes(call=call, notes="hello\n12 finals, 4:5 please", caller="", seen_version=1, by=owner, now=now)
    count = draft_of(call, DraftKind.COUNT)
    assert count.is_accepted and count.line_no == 2 and count.words == "12 finals"
    assert draft_of(call, DraftKind.SHAPE).is_open


def test_an_open_draft_goes_with_its_words_and_a_decided_one_stays_aside(
    begin: Begin, owner: Member, now: datetime
) -> None:
    call = begin("12 finals, 4:5")
    actions.dismiss_draft(draft=draft_of(call, DraftKind.SHAPE), by=owner, now=now)
    actions.save_notes(call=call, notes="hello", caller="", seen_version=1, by=owner, now=now)
    left = Draft.objects.get(call=call)
    assert left.kind == DraftKind.SHAPE and left.is_gone and left.state == DraftState.DISMISSED
    actions.save_notes(call=call, notes="again 4:5", caller="", seen_version=2, by=owner, now=now)
    back = Draft.objects.get(call=call)
    assert back.pk == left.pk and not back.is_gone and back.state == DraftState.DISMISSED


def test_an_edited_draft_is_known_again_by_what_was_read(begin: Begin, owner: Member, now: datetime) -> None:
    call = begin("12 finals")
    edited = {"of": "finals", "minimum": 10, "maximum": 14}
    actions.accept_draft(draft=draft_of(call, DraftKind.COUNT), value=edited, by=owner, now=now)
    actions.save_notes(call=call, notes="12 finals!", caller="", seen_version=1, by=owner, now=now)
    assert draft_of(call, DraftKind.COUNT).value == edited


# deciding


def test_accepting_twice_tells_the_second_and_writes_once(
    begin: Begin, studio: Studio, owner: Member, now: datetime
) -> None:
    call = begin("2 heroes", shoot=make_shoot(studio))
    draft = draft_of(call, DraftKind.COUNT)
    actions.accept_draft(draft=draft, by=owner, now=now)
    with pytest.raises(actions.AlreadyDecided):
        actions.accept_draft(draft=Draft.objects.get(pk=draft.pk), by=owner, now=now)
    with pytest.raises(actions.AlreadyDecided):
        actions.dismiss_draft(draft=draft, by=owner, now=now)
    assert Shot.objects.count() == 2


def test_a_dismissed_draft_writes_nothing_and_can_be_opened_again(
    begin: Begin, studio: Studio, owner: Member, now: datetime
) -> None:
    call = begin("2 heroes", shoot=make_shoot(studio))
    draft = draft_of(call, DraftKind.COUNT)
    actions.dismiss_draft(draft=draft, by=owner, now=now)
    actions.reopen_draft(draft=draft, by=owner, now=now)
    assert draft_of(call, DraftKind.COUNT).is_open and not Shot.objects.exists()


def test_what_is_written_cannot_be_opened_again(begin: Begin, studio: Studio, owner: Member, now: datetime) -> None:
    call = begin("4:5", shoot=make_shoot(studio))
    draft = draft_of(call, DraftKind.SHAPE)
    actions.accept_draft(draft=draft, by=owner, now=now)
    with pytest.raises(actions.AlreadyDecided):
        actions.reopen_draft(draft=draft, by=owner, now=now)


def test_each_decision_is_in_the_trail_of_its_shoot(begin: Begin, studio: Studio, owner: Member, now: datetime) -> None:
    call = begin("4:5", shoot=make_shoot(studio, code="26-077"))
    actions.accept_draft(draft=draft_of(call, DraftKind.SHAPE), by=owner, now=now)
    entry = Entry.objects.get(deed="draft_accepted")
    assert (entry.shoot_code, entry.changes, entry.actor) == ("26-077", {"said": ["", "4:5"]}, owner.user)


# landing


def landed(begin: Begin, studio: Studio, owner: Member, now: datetime, notes: str, **shoot: Any) -> Shoot:
    call = begin(notes, shoot=make_shoot(studio, **shoot))
    assert Draft.objects.filter(call=call).exists(), notes
    accept_all(call, owner, now)
    return Shoot.objects.get(pk=call.shoot_id)


def test_where_and_for_how_long_the_pictures_are_seen_land_in_the_brief(
    begin: Begin, studio: Studio, owner: Member, now: datetime
) -> None:
    notes = "own website and paid social\nGermany and France\nusage: 2 years\n4:5 and 9:16"
    brief = landed(begin, studio, owner, now, notes).brief
    assert brief.placements == ["OWN_WEBSITE", "PAID_SOCIAL"]
    assert sorted(brief.territories) == ["DE", "FR"]
    assert (brief.usage_months, brief.usage_for_good) == (24, False)
    assert brief.shapes == ["4:5", "9:16"]


def test_a_range_of_finals_is_written_with_its_upper_end(
    begin: Begin, studio: Studio, owner: Member, now: datetime
) -> None:
    assert landed(begin, studio, owner, now, "10-12 finals").brief.finals_wanted == 12


def test_shots_beyond_the_least_are_wishes(begin: Begin, studio: Studio, owner: Member, now: datetime) -> None:
    landed(begin, studio, owner, now, "2-3 heroes")
    assert list(Shot.objects.values_list("title", "priority")) == [
        ("Hero 1", Priority.MUST),
        ("Hero 2", Priority.MUST),
        ("Hero 3", Priority.WISH),
    ]


def test_three_heroes_after_two_plan_one_more(begin: Begin, studio: Studio, owner: Member, now: datetime) -> None:
    shoot = make_shoot(studio)
    for notes in ("2 heroes", "3 heroes"):
        accept_all(begin(notes, shoot=shoot), owner, now)
    assert list(Shot.objects.values_list("title", flat=True)) == ["Hero 1", "Hero 2", "Hero 3"]


def test_a_pencilled_day_and_its_second_option_are_held_not_confirmed(
    begin: Begin, studio: Studio, owner: Member, now: datetime
) -> None:
    shoot = landed(begin, studio, owner, now, "pencil the 17th June, second option the 18th")
    days = ShootDay.objects.filter(shoot=shoot)
    assert [(day.date, day.option_rank, day.is_pencilled) for day in days] == [
        (date(2026, 6, 17), 1, True),
        (date(2026, 6, 18), 2, True),
    ]


def test_a_delivery_date_becomes_the_shoots(begin: Begin, studio: Studio, owner: Member, now: datetime) -> None:
    shoot = landed(begin, studio, owner, now, "need the pictures by 10 July")
    assert shoot.delivery_due_date == date(2026, 7, 10)


def test_a_budget_lands_and_last_years_price_only_stays_with_the_call(
    begin: Begin, studio: Studio, owner: Member, now: datetime
) -> None:
    brief = landed(begin, studio, owner, now, "budget £5,000 + VAT\nlast year was £4,200 + VAT").brief
    assert brief.budget == Decimal("5000.00")


def test_a_budget_in_another_currency_is_refused_and_stays_open(
    begin: Begin, studio: Studio, owner: Member, now: datetime
) -> None:
    call = begin("budget £5,000", shoot=make_shoot(studio, currency="EUR"))
    draft = draft_of(call, DraftKind.MONEY)
    with pytest.raises(actions.OtherCurrency):
        actions.accept_draft(draft=draft, by=owner, now=now)
    assert draft_of(call, DraftKind.MONEY).is_open
    assert Brief.objects.get().budget is None and not Entry.objects.filter(deed="draft_accepted").exists()


def test_dark_and_bright_words_gather_in_two_moods(begin: Begin, studio: Studio, owner: Member, now: datetime) -> None:
    shoot = landed(begin, studio, owner, now, "moody and dramatic for one half\nbright, sunny for the other")
    moods = {mood.name: mood for mood in Mood.objects.filter(shoot=shoot)}
    assert moods["Dark"].brightness < 50 < moods["Bright"].brightness
    assert "moody" in moods["Dark"].words and "dramatic" in moods["Dark"].words


def test_what_is_not_wanted_lands_where_it_is_not_wanted(
    begin: Begin, studio: Studio, owner: Member, now: datetime
) -> None:
    brief = landed(begin, studio, owner, now, "no tripods on the track").brief
    assert "tripods" in brief.must_nots and "tripods" not in brief.must_haves


def test_a_line_is_not_written_twice(begin: Begin, studio: Studio, owner: Member, now: datetime) -> None:
    shoot = make_shoot(studio)
    for _ in range(2):
        accept_all(begin("no tripods on the track", shoot=shoot), owner, now)
    assert len(Brief.objects.get().must_nots.splitlines()) == 1


def test_a_product_can_bring_a_shot_of_its_own(begin: Begin, studio: Studio, owner: Member, now: datetime) -> None:
    call = begin("products: orange bottle", shoot=make_shoot(studio))
    draft = Draft.objects.filter(call=call, kind=DraftKind.PRODUCT).first()
    assert draft is not None
    actions.accept_draft(draft=draft, with_shot=True, by=owner, now=now)
    shot = Shot.objects.get()
    assert "bottle" in shot.product.lower() and "bottle" in Brief.objects.get().products.lower()


def test_a_place_the_studio_knows_is_given_to_the_days(
    begin: Begin, studio: Studio, owner: Member, now: datetime
) -> None:
    quarry = make_place(studio, name="Quarry")
    shoot = make_shoot(studio)
    accept_all(begin("shoot on 17 June", shoot=shoot), owner, now)
    call = begin("at the quarry", shoot=shoot)
    actions.accept_draft(draft=draft_of(call, DraftKind.PLACE), by=owner, now=now)
    assert ShootDay.objects.get().place == quarry


def test_a_place_nobody_knows_is_a_line_of_the_brief(
    begin: Begin, studio: Studio, owner: Member, now: datetime
) -> None:
    call = begin("at the quarry", shoot=make_shoot(studio))
    actions.accept_draft(draft=draft_of(call, DraftKind.PLACE), by=owner, now=now)
    assert "Quarry" in Brief.objects.get().must_haves


def test_hours_go_to_a_day_that_has_none(begin: Begin, studio: Studio, owner: Member, now: datetime) -> None:
    shoot = make_shoot(studio)
    accept_all(begin("shoot on 17 June", shoot=shoot), owner, now)
    accept_all(begin("half eight at ours", shoot=shoot), owner, now)
    assert ShootDay.objects.get().call_time == time(8, 30)


def test_more_shots_than_a_day_could_hold_are_refused(
    begin: Begin, studio: Studio, owner: Member, now: datetime
) -> None:
    call = begin("900 packshots", shoot=make_shoot(studio))
    with pytest.raises(actions.TooManyShots):
        actions.accept_draft(draft=draft_of(call, DraftKind.COUNT), by=owner, now=now)
    assert not Shot.objects.exists() and draft_of(call, DraftKind.COUNT).is_open


def test_a_full_field_of_the_brief_refuses_and_changes_nothing(
    begin: Begin, studio: Studio, owner: Member, now: datetime
) -> None:
    shoot = make_shoot(studio)
    Brief.objects.filter(shoot=shoot).update(wished_dates="x" * 195)
    call = begin("launch on 1 September", shoot=shoot)
    with pytest.raises(actions.NoRoom):
        actions.accept_draft(draft=draft_of(call, DraftKind.DATE), by=owner, now=now)
    assert Brief.objects.get().wished_dates == "x" * 195


def test_an_open_brief_page_is_told(begin: Begin, studio: Studio, owner: Member, now: datetime) -> None:
    shoot = make_shoot(studio)
    seen = shoot.brief.version
    accept_all(begin("4:5", shoot=shoot), owner, now)
    assert Brief.objects.get().version > seen


def test_accepting_the_plain_ones_leaves_those_to_make_sure_of(
    begin: Begin, studio: Studio, owner: Member, now: datetime
) -> None:
    call = begin("12 finals, 4:5\nhalf eight at ours", shoot=make_shoot(studio))
    accepted, refused = actions.accept_plain(call=call, by=owner, now=now)
    assert accepted >= 2 and refused == 0
    left = Draft.objects.filter(call=call, state=DraftState.OPEN)
    assert left and all(draft.needs_check for draft in left)


# taking up


def test_what_was_accepted_before_lands_when_the_call_gets_its_shoot(
    begin: Begin, studio: Studio, owner: Member, now: datetime
) -> None:
    call = begin("12 finals, 2 heroes\n9:16")
    actions.accept_draft(draft=draft_of(call, DraftKind.COUNT, words="12 finals"), by=owner, now=now)
    actions.accept_draft(draft=draft_of(call, DraftKind.COUNT, words="2 heroes"), by=owner, now=now)
    assert not Shot.objects.exists()
    taken = actions.take_up(call=call, shoot=make_shoot(studio), by=owner, now=now)
    assert (taken.landed, taken.refused) == (2, 0)
    brief = Brief.objects.get()
    assert brief.finals_wanted == 12 and brief.shapes == [] and Shot.objects.count() == 2


def test_a_call_is_taken_up_once(begin: Begin, studio: Studio, owner: Member, now: datetime) -> None:
    call, shoot = begin("2 heroes"), make_shoot(studio)
    accept_all(call, owner, now)
    actions.take_up(call=call, shoot=shoot, by=owner, now=now)
    with pytest.raises(actions.AlreadyTakenUp):
        actions.take_up(call=call, shoot=make_shoot(studio), by=owner, now=now)
    assert Call.objects.get().shoot == shoot and Shot.objects.count() == 2


def test_what_cannot_land_at_taking_up_is_open_again(
    begin: Begin, studio: Studio, owner: Member, now: datetime
) -> None:
    call = begin("budget £5,000\n4:5")
    accept_all(call, owner, now)
    taken = actions.take_up(call=call, shoot=make_shoot(studio, currency="EUR"), by=owner, now=now)
    assert (taken.landed, taken.refused) == (1, 1)
    assert draft_of(call, DraftKind.MONEY).is_open and Brief.objects.get().shapes == ["4:5"]


def test_an_accepted_draft_may_be_opened_again_while_nothing_is_written(
    begin: Begin, owner: Member, now: datetime
) -> None:
    call = begin("4:5")
    draft = draft_of(call, DraftKind.SHAPE)
    actions.accept_draft(draft=draft, by=owner, now=now)
    actions.reopen_draft(draft=draft, by=owner, now=now)
    assert draft_of(call, DraftKind.SHAPE).is_open


def test_a_call_that_became_nothing_is_thrown_away_and_one_of_a_shoot_is_not(
    begin: Begin, studio: Studio, owner: Member, now: datetime
) -> None:
    actions.delete_call(call=begin("nothing"), by=owner, now=now)
    call = begin("4:5", shoot=make_shoot(studio))
    with pytest.raises(actions.AlreadyTakenUp):
        actions.delete_call(call=call, by=owner, now=now)
    assert Call.objects.get() == call
