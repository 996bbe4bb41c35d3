"""Drafts: begun from the card and the plan, edited by one window at a time, numbered once."""

from __future__ import annotations

from datetime import UTC, date, datetime, time
from decimal import Decimal

import pytest

from shoots.members.actions import EditedMeanwhile
from shoots.quotes.actions import card, drafts
from shoots.quotes.models import Quote, QuoteLine, QuoteSeries, Rate, RateKind
from shoots.quotes.queries.card import card_page, rates_at_hand, suggestions
from shoots.trail.models import Entry
from tests import factories
from tests.quotes.factories import add_line, make_draft, make_rate, make_sent, make_shoot_to_quote, send

pytestmark = pytest.mark.django_db
NOW = factories.NOW


def test_the_first_quote_of_a_year_gets_the_first_number() -> None:
    assert str(make_draft()) == "Q-2026-001-1"


def test_numbers_go_on_in_a_studio_and_begin_again_in_another() -> None:
    shoot = make_shoot_to_quote()
    assert make_draft(shoot).number == "Q-2026-001"
    assert make_draft(make_shoot_to_quote(shoot.studio)).number == "Q-2026-002"
    assert make_draft().number == "Q-2026-001"


def test_the_year_of_a_number_is_the_studios_own() -> None:
    shoot = make_shoot_to_quote(factories.make_studio(time_zone="Pacific/Auckland"))
    quote = drafts.start_quote(shoot=shoot, by=None, now=datetime(2026, 12, 31, 12, 0, tzinfo=UTC))
    assert quote.number == "Q-2027-001"
    assert QuoteSeries.objects.get(year=2027).last == 1


def test_a_shoot_has_one_draft_at_a_time() -> None:
    quote = make_draft()
    with pytest.raises(drafts.DraftThere) as there:
        drafts.start_quote(shoot=quote.shoot, by=None, now=NOW)
    assert there.value.quote == quote
    assert Quote.objects.count() == 1


def test_a_new_version_keeps_number_words_and_lines() -> None:
    sent = make_sent(introduction="Two moods in one day.", discount_percent=Decimal(5))
    second = drafts.copy_quote(quote=sent, by=None, now=NOW)
    assert str(second) == "Q-2026-001-2"
    assert (second.introduction, second.discount_percent) == ("Two moods in one day.", Decimal(5))
    assert [line.unit_price for line in second.lines.all()] == [Decimal(1200)]
    sent.refresh_from_db()
    assert sent.replaced_at is None, "the old one stays open until the new one is sent"


def test_a_draft_begins_with_days_overtime_finishing_and_crew_of_the_plan() -> None:
    shoot = make_shoot_to_quote()
    make_rate(shoot.studio)
    make_rate(shoot.studio, kind=RateKind.OVERTIME, description="Hours after", unit="hour", unit_price=Decimal(150))
    make_rate(shoot.studio, kind=RateKind.FINISHING, description="Finishing", unit="picture", unit_price=Decimal(65))
    day = factories.make_day(shoot, call_time=time(7), wrap_time=time(17, 30))
    factories.make_shot(shoot, finals=2)
    factories.make_shot(shoot, finals=1)
    person = factories.make_person(shoot.studio, day_fee=Decimal(260))
    factories.make_booking(shoot, day=day, person=person)
    quote = drafts.start_quote(shoot=shoot, by=None, now=NOW)
    assert [(line.description, line.quantity, line.unit_price) for line in quote.lines.all()] == [
        ("Photography, day", Decimal(1), Decimal(1200)),
        ("Hours after", Decimal("2.5"), Decimal(150)),  # 7:00 to 17:30 is 10.5 h, 8 h are included
        ("Finishing", Decimal(3), Decimal(65)),
        ("Assistant", Decimal(1), Decimal(260)),
    ]


def test_the_rate_after_the_day_is_quoted_at_none_where_no_hours_run_over() -> None:
    shoot = make_shoot_to_quote()
    make_rate(shoot.studio)
    make_rate(shoot.studio, kind=RateKind.OVERTIME, description="Hours after", unit="hour", unit_price=Decimal(150))
    factories.make_day(shoot, call_time=time(8), wrap_time=time(16))
    quote = drafts.start_quote(shoot=shoot, by=None, now=NOW)
    assert quote.lines.get(kind=RateKind.OVERTIME).quantity == 0


def test_a_second_option_for_the_same_day_is_no_second_day() -> None:
    shoot = make_shoot_to_quote()
    make_rate(shoot.studio)
    factories.make_day(shoot, date=date(2026, 6, 9))
    factories.make_day(shoot, date=date(2026, 6, 9), option_rank=2)
    factories.make_day(shoot, date=date(2026, 6, 10), released_at=NOW)
    quote = drafts.start_quote(shoot=shoot, by=None, now=NOW)
    assert quote.lines.get().quantity == 1


def test_two_assistants_at_one_price_make_one_line() -> None:
    shoot = make_shoot_to_quote()
    factories.make_day(shoot)
    for _ in range(2):
        factories.make_booking(shoot, person=factories.make_person(shoot.studio, day_fee=Decimal(260)))
    quote = drafts.start_quote(shoot=shoot, by=None, now=NOW)
    assert [(line.description, line.quantity) for line in quote.lines.all()] == [("Assistant", Decimal(2))]


def test_the_card_is_not_copied_into_another_currency() -> None:
    shoot = make_shoot_to_quote(currency="EUR")
    make_rate(shoot.studio)
    factories.make_day(shoot)
    quote = drafts.start_quote(shoot=shoot, by=None, now=NOW)
    assert (quote.currency, quote.lines.count()) == ("EUR", 0)
    found = suggestions(shoot, rates_at_hand(shoot.studio), currency="EUR", quote=quote)
    assert [(item.description, item.unit_price) for item in found] == [("Photography, day", None)]


def test_a_suggestion_follows_the_plan_when_it_changes() -> None:
    shoot = make_shoot_to_quote()
    make_rate(shoot.studio, kind=RateKind.FINISHING, description="Finishing", unit="picture", unit_price=Decimal(65))
    factories.make_shot(shoot, finals=4)
    quote = drafts.start_quote(shoot=shoot, by=None, now=NOW)
    factories.make_shot(shoot, finals=1)
    found = suggestions(shoot, rates_at_hand(shoot.studio), currency="GBP", quote=quote)
    assert [(item.quoted, item.quantity, item.differs) for item in found] == [(Decimal(4), Decimal(5), True)]
    drafts.add_suggestion(quote=quote, item=found[0], by=None, now=NOW)
    assert quote.lines.get().quantity == 5


def test_a_further_quote_after_an_acceptance_begins_empty_with_a_new_number() -> None:
    sent = make_sent()
    Quote.objects.filter(pk=sent.pk).update(accepted_at=NOW, accepted_by="Mara Quill")
    make_rate(sent.studio)
    factories.make_day(sent.shoot)
    further = drafts.start_quote(shoot=sent.shoot, by=None, now=NOW)
    assert (further.number, further.revision, further.lines.count()) == ("Q-2026-002", 1, 0)


def test_two_windows_cannot_both_save_the_lines() -> None:
    quote = make_draft()
    line = quote.lines.get()
    seen = quote.version
    row = drafts.LineEdit(line.pk, "Photography", Decimal(2), Decimal(1000))
    drafts.save_lines(quote=quote, rows=[row], seen_version=seen, by=None, now=NOW)
    late = drafts.LineEdit(line.pk, "Mine", Decimal(9), Decimal(1))
    with pytest.raises(EditedMeanwhile):
        drafts.save_lines(quote=quote, rows=[late], seen_version=seen, by=None, now=NOW)
    line.refresh_from_db()
    assert (line.description, line.quantity, line.unit_price) == ("Photography", Decimal(2), Decimal(1000))


def test_a_line_opened_before_the_lines_were_saved_is_not_overwritten() -> None:
    quote = make_draft()
    line = quote.lines.get()
    row = drafts.LineEdit(line.pk, "Photography", Decimal(2), Decimal(1000))
    drafts.save_lines(quote=quote, rows=[row], seen_version=quote.version, by=None, now=NOW)
    with pytest.raises(EditedMeanwhile):
        drafts.edit_line(line=line, changes={"unit_price": Decimal(1)}, seen_version=line.version, by=None, now=NOW)
    line.refresh_from_db()
    assert line.unit_price == 1000


def test_lines_are_moved_and_removed_with_what_was_typed_kept() -> None:
    quote = make_draft()
    first = quote.lines.get()
    second = add_line(quote, description="Assistant", unit_price=Decimal(280))
    quote.refresh_from_db()
    rows = [
        drafts.LineEdit(first.pk, "Photography", Decimal(3), Decimal(1200)),
        drafts.LineEdit(second.pk, "Assistant", Decimal(1), Decimal(280)),
    ]
    drafts.save_lines(quote=quote, rows=rows, move=(second.pk, -1), seen_version=quote.version, by=None, now=NOW)
    assert [(line.description, line.quantity) for line in quote.lines.all()] == [("Assistant", 1), ("Photography", 3)]
    quote.refresh_from_db()
    drafts.save_lines(quote=quote, rows=[], remove=second.pk, seen_version=quote.version, by=None, now=NOW)
    assert [line.description for line in quote.lines.all()] == ["Photography"]


def test_what_was_sent_can_no_longer_be_changed() -> None:
    quote = send(make_draft())
    line = quote.lines.get()
    before = QuoteLine.objects.values().get()
    for change in (
        lambda: add_line(quote),
        lambda: drafts.edit_quote(
            quote=quote, changes={"introduction": "x"}, seen_version=quote.version, by=None, now=NOW
        ),
        lambda: drafts.edit_line(
            line=line, changes={"unit_price": Decimal(1)}, seen_version=line.version, by=None, now=NOW
        ),
        lambda: drafts.set_tax(quote=quote, category="Z", rate=Decimal(0), by=None, now=NOW),
        lambda: drafts.set_licence_fee(quote=quote, fee=Decimal(1), description="Licence", by=None, now=NOW),
        lambda: drafts.discard_quote(quote=quote, by=None, now=NOW),
    ):
        with pytest.raises(drafts.QuoteAlreadySent):
            change()
    assert QuoteLine.objects.values().get() == before
    assert Quote.objects.get().introduction == ""


def test_a_discarded_draft_is_gone_and_its_number_is_not_given_again() -> None:
    quote = make_draft()
    drafts.discard_quote(quote=quote, by=None, now=NOW)
    assert not Quote.objects.exists()
    assert make_draft(quote.shoot).number == "Q-2026-002"


def test_the_licence_fee_takes_the_place_of_the_one_before() -> None:
    quote = make_draft()
    for fee in (Decimal("1123.20"), Decimal("900.00")):
        drafts.set_licence_fee(quote=quote, fee=fee, description="Licence", by=None, now=NOW)
    assert [line.unit_price for line in quote.lines.filter(kind=RateKind.LICENCE)] == [Decimal(900)]


def test_each_deed_leaves_a_trail() -> None:
    quote = make_draft()
    drafts.set_licence_fee(quote=quote, fee=Decimal(900), description="Licence", by=None, now=NOW)
    deeds = Entry.objects.filter(record=f"quote:{quote.pk}").values_list("deed", flat=True)
    assert set(deeds) == {"begun", "line added"}


def test_rates_are_moved_within_their_section_only() -> None:
    studio = factories.make_studio()
    day = make_rate(studio)
    assistant = make_rate(studio, kind=RateKind.CREW, description="Assistant")
    half = make_rate(studio, kind=RateKind.HALF_DAY, description="Half-day", included_hours=Decimal(4))
    card.move_rate(rate=half, step=-1)
    card.move_rate(rate=assistant, step=-1)
    groups = card_page(studio).groups
    assert [[rate.pk for rate in group.rates] for group in groups] == [[half.pk, day.pk], [assistant.pk]]


def test_a_rate_that_was_put_away_is_offered_no_more_and_comes_back() -> None:
    rate = make_rate(factories.make_studio())
    assert card.put_away_rate(rate=rate, away=True, by=None, now=NOW)
    assert not card.put_away_rate(rate=rate, away=True, by=None, now=NOW)
    assert rates_at_hand(rate.studio) == []
    assert card_page(rate.studio).put_away == (rate,)
    assert card.put_away_rate(rate=rate, away=False, by=None, now=NOW)
    assert rates_at_hand(rate.studio) == [rate]
    assert Rate.objects.get().version == 3
