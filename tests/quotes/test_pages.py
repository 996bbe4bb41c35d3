"""The studio's pages of rates and quotes: bad input keeps what was typed, roles, another window, query counts."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from decimal import Decimal

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from shoots.members.models import Member
from shoots.quotes.actions import drafts
from shoots.quotes.models import Quote, Rate, RateKind
from tests import factories
from tests.quotes.factories import add_line, make_draft, make_rate, make_sent, make_shoot_to_quote, make_terms

pytestmark = pytest.mark.django_db
SignIn = Callable[[Member], Client]


@pytest.fixture
def draft(owner: Member) -> Quote:
    return make_draft(make_shoot_to_quote(owner.studio), now=timezone.now())


def page_of(quote: Quote, name: str = "quote_detail", *more: object) -> str:
    return reverse(name, args=[quote.shoot.code, quote.pk, *more])


def rows_of(quote: Quote, **typed: str) -> dict[str, str]:
    """What the form of the lines sends when one line was typed into."""
    line = quote.lines.get()
    return {
        "version": str(quote.version),
        "do": "save",
        f"line-{line.pk}-description": line.description,
        f"line-{line.pk}-quantity": "1",
        f"line-{line.pk}-unit_price": "1200",
        **{f"line-{line.pk}-{name}": value for name, value in typed.items()},
    }


# --- the card


def test_an_empty_card_offers_the_usual_kinds_and_asks_their_prices(browser: Client, owner: Member) -> None:
    assert reverse("rate_begin") in browser.get(reverse("rate_list")).content.decode()
    response = browser.post(reverse("rate_begin"), {"day-price": "1,200", "day-hours": "8", "travel-price": "0.45"})
    assert response.status_code == 302
    rates = Rate.objects.of_studio(owner.studio).values_list("kind", "unit_price", "included_hours")
    assert list(rates) == [("DAY", Decimal(1200), Decimal(8)), ("TRAVEL", Decimal("0.45"), None)]


def test_the_first_card_needs_a_price_and_a_day_its_hours(browser: Client) -> None:
    response = browser.post(reverse("rate_begin"), {"day-price": "1200"})
    assert response.status_code == 422
    assert 'value="1200"' in response.content.decode()
    assert "How many hours" in response.content.decode()
    assert browser.post(reverse("rate_begin"), {"day-price": ""}).status_code == 422
    assert Rate.objects.count() == 0


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("-5", "at least 0"),
        ("twelve", "no amount"),
        ("1.234,56", "two ways"),
        ("€ 900", "another currency"),
        ("1.23456", "four decimals"),
        ("99999999999", "more than any shoot"),
        ("", "required"),
    ],
)
def test_a_price_that_cannot_be_meant_is_refused_by_its_field(browser: Client, typed: str, said: str) -> None:
    fields = {"kind": "CREW", "description": "Assistant", "unit_price": typed, "markup_percent": "0"}
    response = browser.post(
        reverse("rate_new"), {**fields, "unit": "day", "tax_category": "S", "tax_rate": "20", "version": "0"}
    )
    page = response.content.decode()
    assert response.status_code == 422
    assert said in page
    assert 'value="Assistant"' in page
    assert Rate.objects.count() == 0


def test_a_rate_is_edited_by_one_window_at_a_time(browser: Client, owner: Member) -> None:
    rate = make_rate(owner.studio)
    fields = {
        "kind": "DAY",
        "description": "Photography, day",
        "unit_price": "1300",
        "unit": "day",
        "included_hours": "8",
        "markup_percent": "0",
        "tax_category": "S",
        "tax_rate": "20",
        "version": "1",
    }
    assert browser.post(reverse("rate_edit", args=[rate.pk]), fields).status_code == 302
    response = browser.post(reverse("rate_edit", args=[rate.pk]), {**fields, "unit_price": "1"})
    assert response.status_code == 422
    assert "saved this in the meantime" in response.content.decode()
    rate.refresh_from_db()
    assert rate.unit_price == 1300


def test_a_studio_without_vat_number_is_asked_no_vat(browser: Client, owner: Member) -> None:
    owner.studio.vat_number = ""
    owner.studio.save()
    assert "tax_rate" not in browser.get(reverse("rate_new")).content.decode()
    browser.post(
        reverse("rate_new"), {"kind": "CREW", "description": "Assistant", "unit_price": "280", "markup_percent": "0"}
    )
    assert Rate.objects.get().tax_category == "O"


# --- the list and the draft


def test_the_list_begins_with_the_next_step(browser: Client, owner: Member) -> None:
    shoot = make_shoot_to_quote(owner.studio)
    page = browser.get(reverse("quote_list", args=[shoot.code])).content.decode()
    assert "Write the quote" in page
    response = browser.post(reverse("quote_start", args=[shoot.code]))
    quote = Quote.objects.get()
    assert response["Location"] == page_of(quote)
    assert browser.post(reverse("quote_start", args=[shoot.code]))["Location"] == page_of(quote), "a double click"
    assert Quote.objects.count() == 1


def test_lines_are_saved_and_added_up(browser: Client, draft: Quote) -> None:
    response = browser.post(page_of(draft, "quote_lines"), rows_of(draft, quantity="2", unit_price="£1,100"))
    assert response.status_code == 302
    assert "£2,640.00" in browser.get(page_of(draft)).content.decode()  # 2 × 1,100 and 20 %


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("unit_price", "-5", "at least 0"),
        ("unit_price", "a lot", "no amount"),
        ("quantity", "-1", "At least 0"),
        ("quantity", "many", "number"),
        ("description", "", "required"),
    ],
)
def test_a_wrong_line_keeps_what_was_typed_and_changes_nothing(
    browser: Client, draft: Quote, field: str, typed: str, said: str
) -> None:
    response = browser.post(page_of(draft, "quote_lines"), rows_of(draft, **{"description": "Mine", field: typed}))
    page = response.content.decode()
    assert response.status_code == 422
    assert said in page
    assert f'value="{typed}"' in page or not typed
    line = draft.lines.get()
    assert (line.description, line.unit_price) == ("Photography, day", Decimal(1200))


def test_the_second_window_is_told_and_loses_nothing(browser: Client, draft: Quote) -> None:
    stale = rows_of(draft, description="Typed in the second window")
    browser.post(page_of(draft, "quote_lines"), rows_of(draft, quantity="2"))
    response = browser.post(page_of(draft, "quote_lines"), stale)
    page = response.content.decode()
    assert response.status_code == 422
    assert "saved this in the meantime" in page
    assert 'value="Typed in the second window"' in page
    assert draft.lines.get().quantity == 2


def test_moving_and_removing_are_buttons_of_the_same_form(browser: Client, draft: Quote) -> None:
    second = add_line(draft, description="Assistant", kind=RateKind.CREW)
    draft.refresh_from_db()
    fields = {"version": str(draft.version)}
    for line in draft.lines.all():
        fields[f"line-{line.pk}-description"] = line.description
        fields[f"line-{line.pk}-quantity"] = "3"
        fields[f"line-{line.pk}-unit_price"] = "100"
    browser.post(page_of(draft, "quote_lines"), {**fields, "do": f"up:{second.pk}"})
    lines = [(line.description, line.quantity) for line in draft.lines.all()]
    assert lines == [("Assistant", 3), ("Photography, day", 3)]
    draft.refresh_from_db()
    browser.post(page_of(draft, "quote_lines"), {**fields, "version": str(draft.version), "do": f"remove:{second.pk}"})
    assert [line.description for line in draft.lines.all()] == ["Photography, day"]


def test_a_rate_of_the_card_is_added_so_many_times(browser: Client, draft: Quote, owner: Member) -> None:
    rate = make_rate(owner.studio, kind=RateKind.TRAVEL, description="Travel", unit="mile", unit_price=Decimal("0.45"))
    browser.post(page_of(draft, "quote_add"), {"rate": rate.pk, "quantity": "86"})
    assert draft.lines.get(kind="TRAVEL").quantity == 86
    browser.post(page_of(draft, "quote_add"), {"rate": rate.pk, "quantity": "-1"})
    assert draft.lines.filter(kind="TRAVEL").count() == 1


def test_a_rate_of_another_studio_cannot_be_added(browser: Client, draft: Quote) -> None:
    foreign = make_rate(factories.make_studio(name="Another studio"))
    assert browser.post(page_of(draft, "quote_add"), {"rate": foreign.pk, "quantity": "1"}).status_code == 404
    assert draft.lines.count() == 1


def test_a_suggestion_without_a_price_asks_for_it(browser: Client, draft: Quote) -> None:
    factories.make_booking(draft.shoot, kind="HIRE", what="Haze machine")
    page = browser.get(page_of(draft)).content.decode()
    assert "Haze machine" in page
    key = f"booking-{draft.shoot.bookings.get().pk}"
    response = browser.post(page_of(draft, "quote_suggestion"), {"key": key})
    assert "lines/new/?kind=HIRE&description=Haze+machine" in response["Location"]
    assert 'value="Haze machine"' in browser.get(response["Location"]).content.decode()


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"currency": "GBX"}, "is no currency"),
        ({"currency": "XAU"}, "is no currency"),
        ({"discount": "100", "discount_percent": "5"}, "not both"),
        ({"discount_percent": "120"}, "less than or equal to 100"),
        ({"deposit_percent": "-1"}, "greater than or equal to 0"),
        ({"valid_days": "0"}, "greater than or equal to 1"),
    ],
)
def test_wrong_terms_of_a_quote_are_refused_by_their_field(
    browser: Client, draft: Quote, changes: dict[str, str], said: str
) -> None:
    fields = {
        "introduction": "Words that stay.",
        "conditions": "",
        "discount": "0",
        "discount_percent": "0",
        "discount_reason": "",
        "deposit_percent": "50",
        "valid_days": "21",
        "currency": "GBP",
        "version": str(draft.version),
        **changes,
    }
    response = browser.post(page_of(draft, "quote_edit"), fields)
    assert response.status_code == 422
    assert said in response.content.decode()
    assert "Words that stay." in response.content.decode()
    draft.refresh_from_db()
    assert (draft.introduction, draft.currency) == ("", "GBP")


def test_the_licence_fee_is_worked_out_in_the_open_and_put_into_the_quote(browser: Client, owner: Member) -> None:
    """By hand with the starting factors: 600 × (0.40 + 0.50) × 1.30 × 1.60 × 1 = 1,123.20."""
    draft = make_draft(make_shoot_to_quote(owner.studio), now=timezone.now())
    make_rate(owner.studio, kind=RateKind.LICENCE, description="Usage", unit="", unit_price=Decimal(600))
    page = browser.get(page_of(draft, "quote_licence_fee")).content.decode()
    assert "£1,123.20" in page
    assert "no market rates" in page
    fields = {
        "base": "1,000",
        "MEDIA-OWN_WEBSITE": "0.5",
        "MEDIA-PAID_SOCIAL": "0.5",
        "TERRITORY-FEW_COUNTRIES": "1.5",
        "TERM-24": "2",
        "EXCLUSIVITY-NONE": "1",
    }
    response = browser.post(page_of(draft, "quote_licence_fee"), {**fields, "do": "look"})
    assert "£3,000.00" in response.content.decode()
    assert draft.lines.filter(kind="LICENCE").count() == 0, "looking puts nothing into the quote"
    browser.post(page_of(draft, "quote_licence_fee"), {**fields, "do": "put"})
    assert draft.lines.get(kind="LICENCE").unit_price == 3000
    wrong = browser.post(page_of(draft, "quote_licence_fee"), {**fields, "TERM-24": "-1", "do": "put"})
    assert wrong.status_code == 422
    assert draft.lines.get(kind="LICENCE").unit_price == 3000


def test_without_settled_usage_there_is_no_fee_to_work_out(browser: Client, owner: Member) -> None:
    draft = drafts.start_quote(shoot=make_shoot_to_quote(owner.studio), by=None, now=timezone.now())
    page = browser.get(page_of(draft, "quote_licence_fee")).content.decode()
    assert "Settle the usage" in page


def test_reverse_charge_is_proposed_for_a_business_abroad(browser: Client, owner: Member) -> None:
    client = factories.make_client(owner.studio, name="Atelier", country="IE", vat_number="IE6388047V")
    shoot = make_shoot_to_quote(owner.studio, client=client)
    draft = make_draft(shoot, now=timezone.now())
    assert "reverse charge" in browser.get(page_of(draft)).content.decode()
    browser.post(page_of(draft, "quote_tax"), {"category": "AE", "rate": "0"})
    page = browser.get(page_of(draft)).content.decode()
    assert "£1,200.00" in page
    assert [line.tax_category for line in draft.lines.all()] == ["AE"]
    assert browser.post(page_of(draft, "quote_tax"), {"category": "XX"}).status_code == 302
    assert [line.tax_category for line in draft.lines.all()] == ["AE"]


# --- sending and answering


def test_sending_from_the_page(browser: Client, draft: Quote) -> None:
    page = browser.get(page_of(draft, "quote_send")).content.decode()
    assert 'value="mara@example.com"' in page
    fields = {"email": "mara@example.com", "message": "As agreed.", "version": str(draft.version)}
    assert browser.post(page_of(draft, "quote_send"), fields).status_code == 302
    assert browser.post(page_of(draft, "quote_send"), fields).status_code == 302, "a double click is told, not a fault"
    assert "Being made" in browser.get(page_of(draft)).content.decode()
    draft.refresh_from_db()
    assert draft.sent_to == "mara@example.com"


def test_a_wrong_address_is_refused_and_the_message_stays(browser: Client, draft: Quote) -> None:
    fields = {"email": "mara at example", "message": "As agreed.", "version": str(draft.version)}
    response = browser.post(page_of(draft, "quote_send"), fields)
    assert response.status_code == 422
    assert "As agreed." in response.content.decode()
    draft.refresh_from_db()
    assert draft.is_draft


def test_sending_what_was_changed_in_another_window_is_told(browser: Client, draft: Quote) -> None:
    fields = {"email": "", "message": "Hello", "version": str(draft.version)}
    add_line(draft, description="Sneaked in")
    response = browser.post(page_of(draft, "quote_send"), fields)
    assert response.status_code == 422
    assert "in the meantime" in response.content.decode()
    draft.refresh_from_db()
    assert draft.is_draft


def test_the_answer_is_written_down_by_the_studio(browser: Client, owner: Member) -> None:
    quote = make_sent(make_shoot_to_quote(owner.studio), now=timezone.now() - timedelta(days=2))
    fields = {"answer": "yes", "name": "Mara Quill", "evidence": "“Go ahead!”"}
    before = (timezone.localdate() - timedelta(days=5)).isoformat()
    response = browser.post(page_of(quote, "quote_answer"), {**fields, "said_date": before})
    assert response.status_code == 422
    assert "After the quote was sent" in response.content.decode()
    assert "Go ahead!" in response.content.decode()
    response = browser.post(page_of(quote, "quote_answer"), {**fields, "said_date": timezone.localdate().isoformat()})
    assert response.status_code == 302
    quote.refresh_from_db()
    assert (quote.accepted_by, quote.acceptance_evidence) == ("Mara Quill", "“Go ahead!”")
    again = browser.post(page_of(quote, "quote_answer"), {**fields, "said_date": timezone.localdate().isoformat()})
    assert again.status_code == 302


def test_a_no_is_written_down_too(browser: Client, owner: Member) -> None:
    quote = make_sent(make_shoot_to_quote(owner.studio), now=timezone.now())
    fields = {"answer": "no", "name": "Mara", "evidence": "They went with another look."}
    browser.post(page_of(quote, "quote_answer"), {**fields, "said_date": timezone.localdate().isoformat()})
    quote.refresh_from_db()
    assert quote.declined_reason == "Mara: They went with another look."


def test_the_link_is_shown_to_planners_and_can_be_closed(
    browser: Client, owner: Member, bookkeeper: Member, signed_in: SignIn
) -> None:
    quote = make_sent(make_shoot_to_quote(owner.studio), now=timezone.now())
    assert "/quote/" in browser.get(page_of(quote)).content.decode().replace(f"{quote.shoot.code}/quote/", "")
    assert "The client's link" not in signed_in(bookkeeper).get(page_of(quote)).content.decode()
    browser.post(page_of(quote, "quote_close_link"))
    assert "The client's link" not in browser.get(page_of(quote)).content.decode()


def test_the_preview_is_a_pdf_and_changes_nothing(browser: Client, draft: Quote) -> None:
    response = browser.get(page_of(draft, "quote_preview"))
    assert b"".join(response.streaming_content)[:5] == b"%PDF-"  # type: ignore[attr-defined]
    draft.refresh_from_db()
    assert (draft.is_draft, draft.document) == (True, None)


# --- who may


def test_a_bookkeeper_reads_a_draft_and_changes_nothing(draft: Quote, bookkeeper: Member, signed_in: SignIn) -> None:
    browser = signed_in(bookkeeper)
    page = browser.get(page_of(draft)).content.decode()
    assert "£1,440.00" in page
    assert "<form" not in page.split('id="main"')[1]
    for name in ("quote_lines", "quote_add", "quote_send", "quote_discard", "quote_edit", "quote_answer"):
        assert browser.post(page_of(draft, name)).status_code == 403, name


def test_crew_see_no_quotes_and_no_rates(draft: Quote, crew: Member, signed_in: SignIn) -> None:
    person = factories.make_person(draft.studio, email=crew.user.email)
    factories.make_booking(draft.shoot, person=person)
    browser = signed_in(crew)
    for address in (
        page_of(draft),
        page_of(draft, "quote_preview"),
        reverse("quote_list", args=[draft.shoot.code]),
        reverse("rate_list"),
    ):
        assert browser.get(address).status_code == 403, address


def test_another_studios_quote_is_not_there(draft: Quote, signed_in: SignIn, other_studio: object) -> None:
    browser = signed_in(factories.make_member(other_studio))  # type: ignore[arg-type]
    for name in ("quote_detail", "quote_preview", "quote_send", "quote_lines"):
        assert browser.get(page_of(draft, name)).status_code == 404, name
    rate = make_rate(draft.studio)
    assert browser.get(reverse("rate_edit", args=[rate.pk])).status_code == 404


def test_the_editor_needs_the_same_number_of_queries_for_two_lines_and_forty(browser: Client, owner: Member) -> None:
    counts = []
    for lines in (2, 40):
        draft = make_draft(make_shoot_to_quote(owner.studio), now=timezone.now())
        for n in range(lines):
            add_line(draft, description=f"Line {n}")
            factories.make_shot(draft.shoot)
        with CaptureQueriesContext(
            connection,
        ) as queries:
            assert browser.get(page_of(draft)).status_code == 200
        counts.append(len(queries))
    assert counts[0] == counts[1]


def test_the_list_needs_the_same_number_of_queries_for_two_versions_and_six(browser: Client, owner: Member) -> None:
    counts = []
    for versions in (2, 6):
        shoot = make_shoot_to_quote(owner.studio)
        make_terms(shoot)
        for n in range(versions):
            Quote.objects.create(
                studio=owner.studio,
                shoot=shoot,
                number=f"Q-{shoot.code}",
                revision=n + 1,
                sent_at=timezone.now(),
                valid_until=timezone.now(),
            )
        with CaptureQueriesContext(connection) as queries:
            browser.get(reverse("quote_list", args=[shoot.code]))
        counts.append(len(queries))
    assert counts[0] == counts[1]
