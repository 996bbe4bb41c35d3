"""The studio's pages of the brief: what it shows of versions, changes and costs, and to whom."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from shoots.agreement.actions import answers
from shoots.agreement.models import BriefVersion, Correction
from shoots.brief.models import Brief
from shoots.members.models import Member
from shoots.quotes.models import RateKind
from shoots.shotlist.models import Shot
from tests import factories
from tests.agreement.factories import make_sent, make_shoot, reload
from tests.quotes.factories import add_line, make_rate, make_terms, run_jobs
from tests.quotes.factories import make_draft as make_draft_quote
from tests.quotes.factories import send as send_quote

pytestmark = pytest.mark.django_db


@pytest.fixture
def shoot(owner: Member):  # type: ignore[no-untyped-def]
    return make_shoot(owner.studio)


def words_of(answer) -> str:  # type: ignore[no-untyped-def]
    return " ".join(answer.content.decode().split())


def url(shoot, name: str = "brief_detail", *more: object) -> str:  # type: ignore[no-untyped-def]
    return reverse(name, args=[shoot.code, *more])


def approved(shoot) -> BriefVersion:  # type: ignore[no-untyped-def]
    version = make_sent(shoot, now=timezone.now())
    answers.approve_brief(version=version, name="Mara Quill", now=timezone.now())
    return reload(version)


def test_before_anything_was_sent_the_page_offers_to_send_it(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    page = words_of(browser.get(url(shoot)))
    assert "The client has not seen this yet." in page
    assert url(shoot, "brief_send") in page


def test_sending_from_the_page(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    form = browser.get(url(shoot, "brief_send")).context["form"]
    typed = {name: form[name].value() or "" for name in form.fields}
    assert typed["email"] == "mara@example.com"
    answer = browser.post(url(shoot, "brief_send"), typed)
    version = BriefVersion.objects.get()
    assert answer["Location"] == url(shoot, "brief_version", version.pk)
    again = browser.post(url(shoot, "brief_send"), typed)  # the same form once more: a double click
    assert again["Location"] == url(shoot)
    assert BriefVersion.objects.count() == 1


def test_an_edit_in_another_window_is_told_before_it_is_sent_and_what_was_typed_stays(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    form = browser.get(url(shoot, "brief_send")).context["form"]
    typed = {name: form[name].value() or "" for name in form.fields} | {"message": "As we said on the phone."}
    Shot.objects.filter(title="Rim").update(finals=7)
    late = browser.post(url(shoot, "brief_send"), typed)
    assert late.status_code == 422
    assert "was changed since you looked" in late.content.decode()
    assert "As we said on the phone." in late.content.decode()
    assert BriefVersion.objects.count() == 0
    knowingly = {name: late.context["form"][name].value() or "" for name in form.fields}
    assert browser.post(url(shoot, "brief_send"), knowingly).status_code == 302
    assert BriefVersion.objects.get().document.content["agreed"]["shots"][0]["finals"] == 7


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({"email": "mara at example"}, "email"),
        ({"message": "x" * 2001}, "message"),
        ({"seen_number": "-1"}, "seen_number"),
        ({"seen_number": "one"}, "seen_number"),
        ({"seen_print": "x" * 65}, "seen_print"),
    ],
)
def test_wrong_input_is_named_by_its_field_and_nothing_is_sent(browser: Client, shoot, typed, field) -> None:  # type: ignore[no-untyped-def]
    answer = browser.post(url(shoot, "brief_send"), typed)
    assert answer.status_code == 422
    assert field in answer.context["form"].errors
    assert BriefVersion.objects.count() == 0


def test_a_brief_without_a_list_is_not_sent_and_says_why(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    Shot.objects.all().delete()
    page = words_of(browser.get(url(shoot, "brief_send")))
    assert "There is no picture on the shot list yet." in page
    assert "Freeze and send" not in page


def test_changes_since_the_approval_stand_on_the_page_in_words(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    version = approved(shoot)
    page = words_of(browser.get(url(shoot)))
    assert version.approved_sha256 in words_of(browser.get(url(shoot, "brief_version", version.pk)))
    assert "Brief and shots are just as they were sent." in page
    factories.make_shot(shoot, title="Sluice", position=8)
    factories.make_shot(shoot, title="Steps", position=9)
    Brief.objects.filter(shoot=shoot).update(usage_months=24, placements=["OWN_WEBSITE", "TRADE_SHOW"])
    page = words_of(browser.get(url(shoot)))
    assert "Changed since version 1 was approved" in page
    assert "Two more shots: 3 “Sluice”, 4 “Steps”." in page
    assert "Licence term asked for: 1 year → 2 years." in page
    assert "Also to be seen in: trade show." in page
    assert "Send version 2" in page


def test_what_the_added_shot_costs_comes_from_the_quote_that_counts(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    """Finishing: three more at £45 is £135. Licence: £1,200 for two pictures is £600 each, three are £1,800."""
    make_terms(shoot, picture_count=2)
    quote = make_draft_quote(shoot)
    finishing = {"kind": RateKind.FINISHING, "description": "Finishing", "unit": "picture", "included_hours": None}
    add_line(quote, **finishing, unit_price=Decimal(45), quantity=Decimal(2))
    licence = {"kind": RateKind.LICENCE, "description": "Licence", "unit": "", "included_hours": None}
    add_line(quote, **licence, unit_price=Decimal(1200))
    send_quote(quote)
    approved(shoot)
    factories.make_shot(shoot, title="Sluice", position=8, finals=3, minutes=25)
    page = words_of(browser.get(url(shoot)))
    assert "£1,935.00 more" in page
    assert "Finishing: 3 × £45.00 = £135.00; the quote has 2 already" in page
    assert "3 × £600.00 = £1,800.00; the usage covers 2 already" in page
    assert "25 min more" in page
    assert "Light for shots that have no setup yet." in page
    assert f"At the prices of quote {quote}, which is with the client." in page


def test_without_a_quote_the_rate_card_prices_it_and_the_licence_is_named_as_unpriced(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    make_rate(shoot.studio, kind=RateKind.FINISHING, description="Finishing", unit="picture", unit_price=Decimal(38))
    approved(shoot)
    factories.make_shot(shoot, title="Sluice", position=8)
    page = words_of(browser.get(url(shoot)))
    assert "£38.00 more" in page
    assert "At your rate card: no quote is out yet." in page
    assert "The licence for the added pictures: no fee was quoted." in page


def test_a_shorter_list_says_the_time_that_is_saved_and_takes_no_money_off(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    approved(shoot)
    Shot.objects.filter(title="Slab").delete()
    page = words_of(browser.get(url(shoot)))
    assert "One shot is out: 2 “Slab”." in page
    assert "20 min less" in page
    assert "Fewer pictures take nothing off" in page


def test_what_isn_t_right_stands_on_top_until_the_next_version(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    version = make_sent(shoot, now=timezone.now())
    answers.correct_brief(version=version, name="Mara", words="No dogs, <b>please</b>", now=timezone.now())
    page = words_of(browser.get(url(shoot)))
    assert "What isn’t right with version 1" in page
    assert "No dogs, &lt;b&gt;please&lt;/b&gt;" in page
    make_sent(shoot, now=timezone.now())
    assert "What isn’t right with" not in words_of(browser.get(url(shoot)))


def test_a_newer_version_that_is_with_the_client_says_so_beside_the_changes(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    approved(shoot)
    factories.make_shot(shoot, title="Sluice", position=8)
    second = make_sent(shoot, now=timezone.now())
    page = words_of(browser.get(url(shoot)))
    assert "Changed since version 1 was approved" in page
    assert "All of this stands in version 2, which they have." in page
    assert "Send version 3" not in page
    answers.correct_brief(version=second, name="Mara", words="No sluice", now=timezone.now())
    assert "The brief was changed since." not in words_of(browser.get(url(shoot)))
    Shot.objects.filter(title="Sluice").delete()
    page = words_of(browser.get(url(shoot)))
    assert "The brief was changed since." in page
    assert "Send version 3" in page


def test_the_studio_writes_their_answer_down(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    version = make_sent(shoot, now=timezone.now())
    typed = {"answer": "yes", "name": "Mara Quill", "said_date": "2020-01-01", "evidence": "“Go ahead” by mail"}
    answer = browser.post(url(shoot, "brief_answer", version.pk), typed)
    assert answer.status_code == 422
    assert "After the brief was sent" in answer.content.decode()
    assert "“Go ahead” by mail" in answer.content.decode()
    assert reload(version).approved_at is None
    today = timezone.localdate().isoformat()
    assert browser.post(url(shoot, "brief_answer", version.pk), typed | {"said_date": today}).status_code == 302
    after = reload(version)
    assert (after.approved_by, after.approval_evidence) == ("Mara Quill", "“Go ahead” by mail")
    assert browser.get(url(shoot, "brief_answer", version.pk))["Location"] == url(shoot, "brief_version", version.pk)


def test_a_no_that_was_heard_becomes_a_correction(browser: Client, shoot, owner: Member) -> None:  # type: ignore[no-untyped-def]
    version = make_sent(shoot, now=timezone.now())
    today = timezone.localdate().isoformat()
    typed = {"answer": "no", "name": "Mara", "said_date": today, "evidence": "On the phone: no dogs"}
    assert browser.post(url(shoot, "brief_answer", version.pk), typed).status_code == 302
    said = Correction.objects.get()
    assert (said.words, said.recorded_by) == ("On the phone: no dogs", str(owner))
    assert f"written down by {owner}" in words_of(browser.get(url(shoot)))


def test_a_version_shows_what_was_frozen_and_compares_with_any_other(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    first = make_sent(shoot, now=timezone.now())
    factories.make_shot(shoot, title="Sluice", position=8)
    second = make_sent(shoot, now=timezone.now())
    Brief.objects.filter(shoot=shoot).update(usage_for_good=True, usage_months=None)
    page = words_of(browser.get(url(shoot, "brief_version", second.pk)))
    assert "From version 1 to version 2:" in page
    assert "One more shot: 3 “Sluice”." in page
    back = words_of(browser.get(url(shoot, "brief_version", first.pk), {"with": second.pk}))
    assert "From version 1 to version 2:" in back
    assert "One more shot: 3 “Sluice”." in back
    today = words_of(browser.get(url(shoot, "brief_version", second.pk), {"with": "today"}))
    assert "Licence term asked for: 1 year → as long as copyright lasts." in today
    for odd in ("999999", "'; drop", "-1"):
        assert browser.get(url(shoot, "brief_version", first.pk), {"with": odd}).status_code == 200


def test_withdrawing_from_the_page(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    version = make_sent(shoot, now=timezone.now())
    assert browser.get(url(shoot, "brief_withdraw", version.pk)).status_code == 405
    browser.post(url(shoot, "brief_withdraw", version.pk))
    page = words_of(browser.get(url(shoot)))
    assert "Withdrawn" in page
    assert "Send version 2" in page
    make_sent(shoot, now=timezone.now())
    assert sorted(BriefVersion.objects.values_list("number", flat=True)) == [1, 2]


def test_crew_see_the_brief_and_no_version_link_or_cost(crew: Member, signed_in, shoot) -> None:  # type: ignore[no-untyped-def]
    make_rate(shoot.studio, kind=RateKind.FINISHING, description="Finishing", unit="picture", unit_price=Decimal(38))
    version = approved(shoot)
    factories.make_shot(shoot, title="Sluice", position=8)
    factories.make_booking(shoot, person=factories.make_person(shoot.studio, email=crew.user.email))
    browser = signed_in(crew)
    page = words_of(browser.get(url(shoot)))
    assert "One more shot: 3 “Sluice”." in page
    assert "£" not in page
    assert url(shoot, "brief_version", version.pk) not in page
    for name in ("brief_send", "brief_preview"):
        assert browser.get(url(shoot, name)).status_code == 403
    for name in ("brief_version", "brief_answer", "brief_withdraw"):
        assert browser.post(url(shoot, name, version.pk)).status_code in (403, 405)
    assert reload(version).link.revoked_at is None


def test_the_bookkeeper_reads_versions_and_sends_none(bookkeeper: Member, signed_in, shoot) -> None:  # type: ignore[no-untyped-def]
    version = make_sent(shoot, now=timezone.now())
    browser = signed_in(bookkeeper)
    page = words_of(browser.get(url(shoot, "brief_version", version.pk)))
    assert "/brief/versions/" not in page or "Write down their answer" not in page
    assert "The client's link" not in page
    assert browser.post(url(shoot, "brief_send"), {}).status_code == 403


def test_another_studio_s_brief_is_not_found(other_studio, signed_in, shoot) -> None:  # type: ignore[no-untyped-def]
    version = make_sent(shoot, now=timezone.now())
    browser = signed_in(factories.make_member(other_studio))
    for address in (url(shoot), url(shoot, "brief_send"), url(shoot, "brief_version", version.pk)):
        assert browser.get(address).status_code == 404
    for address in (url(shoot, "brief_answer", version.pk), url(shoot, "brief_withdraw", version.pk)):
        assert browser.post(address, {"answer": "yes", "name": "x"}).status_code == 404
    assert reload(version).approved_at is None


def test_a_version_of_another_shoot_is_not_found_under_this_one(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    other = make_shoot(shoot.studio)
    version = make_sent(other, now=timezone.now())
    assert browser.get(url(shoot, "brief_version", version.pk)).status_code == 404
    assert browser.get(url(shoot, "brief_version", version.pk), {"with": version.pk}).status_code == 404


def test_the_page_takes_the_same_queries_for_two_shots_and_for_a_hundred(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    approved(shoot)
    factories.make_shot(shoot, title="One more", position=9)
    browser.get(url(shoot))
    with CaptureQueriesContext(connection) as few:
        browser.get(url(shoot))
    for n in range(100):
        factories.make_shot(shoot, title=f"Shot {n}", position=10 + n)
    with CaptureQueriesContext(connection) as many:
        page = words_of(browser.get(url(shoot)))
    assert len(few) == len(many)
    assert "101 more shots: 3 to 103." in page


def test_the_preview_is_a_pdf_that_is_not_kept(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    response = browser.get(url(shoot, "brief_preview"))
    assert b"".join(response.streaming_content)[:5] == b"%PDF-"  # type: ignore[attr-defined]
    assert (BriefVersion.objects.count(), run_jobs()) == (0, 0)


def test_the_preview_opens_before_there_is_a_client(browser: Client, studio) -> None:  # type: ignore[no-untyped-def]
    bare = factories.make_shoot(studio, code="26-077", client=None)
    response = browser.get(url(bare, "brief_preview"))
    assert b"".join(response.streaming_content)[:5] == b"%PDF-"  # type: ignore[attr-defined]


def test_countries_that_are_left_out_are_said_so(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    """It read "More countries: Worldwide and −United States"."""
    approved(shoot)
    Brief.objects.filter(shoot=shoot).update(territories=["UK_IRELAND", "world", "-US", "-CA"])
    page = words_of(browser.get(url(shoot)))
    assert "More countries: Worldwide. Countries left out: United States and Canada." in page
    assert "UK and Ireland, Worldwide, except United States and Canada" in page and "−United" not in page


def test_the_parts_of_the_time_are_in_the_units_of_their_sum(browser: Client, shoot) -> None:  # type: ignore[no-untyped-def]
    """ "2 h more" stood over "+120 min of shots"."""
    approved(shoot)
    for n in range(4):
        factories.make_shot(shoot, title=f"More {n}", minutes=35, position=9 + n)
    page = words_of(browser.get(url(shoot)))
    assert "+2 h 20 min of shots" in page and "140 min" not in page
