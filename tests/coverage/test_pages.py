"""What was promised against the shots, in the browser: what is read, what is shown, what the studio may say."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from shoots.agreement.models import BriefVersion
from shoots.brief import actions as briefs
from shoots.brief.models import Brief
from shoots.call import actions as calls
from shoots.coverage import actions
from shoots.coverage.models import Promise
from shoots.coverage.queries.page import coverage_page
from shoots.members.models import Member, Studio
from shoots.quotes.models import Quote, QuoteLine
from shoots.rights.models import Licence
from shoots.shoot.models import Shoot
from shoots.shotlist.models import Shot
from shoots.shotlist.queries import shot_list
from shoots.trail.models import Entry
from tests import factories
from tests.agreement import factories as agreements
from tests.factories import NOW


@pytest.fixture
def shoot(studio: Studio) -> Shoot:
    """A brief for a vest and a pack, two pictures, 4:5; one shot of the vest."""
    shoot = factories.make_shoot(studio, code="26-001")
    changes = {"products": "12 litre pack, burnt orange\n5 litre vest, slate", "shapes": ["4:5"], "finals_wanted": 2}
    briefs.edit_brief(
        shoot=shoot, changes=changes, seen_version=Brief.objects.get(shoot=shoot).version, by=None, now=NOW
    )
    factories.make_shot(shoot, title="The vest", products=["5 litre vest, slate"], shapes=["4:5"])
    return shoot


def url(name: str, *args: object) -> str:
    return reverse(name, args=["26-001", *args])


def states(shoot: Shoot) -> dict[str, str]:
    page = coverage_page(shoot)
    return {row.title: row.tag for row in (*page.holes, *page.served, *page.wishes)}


def test_the_brief_s_promises_are_told_kept_or_not(browser: Client, shoot: Shoot) -> None:
    assert states(shoot) == {
        "Finished pictures": "1 of 2",
        "12 litre pack": "hole",
        "4:5": "served",
        "5 litre vest": "served",
    }
    page = browser.get(url("coverage_detail")).content.decode()
    assert "Two of four promises are not kept by the shots yet." in page
    assert "This one covers what can be covered of it; none is extra." in page


def test_what_was_named_together_on_the_call_counts_once_it_is_accepted(shoot: Shoot, owner: Member) -> None:
    call = calls.begin_call(studio=shoot.studio, shoot=shoot, notes="9:16 for stories, 3 of them", by=owner, now=NOW)
    assert "9:16 · Organic social" not in states(shoot)
    for draft in call.drafts.filter(kind__in=["shape", "placement"]):
        calls.accept_draft(draft=draft, by=owner, now=NOW)
    row = next(row for row in coverage_page(shoot).holes if row.title == "9:16 · Organic social")
    assert row.asked == "3 pictures at least"
    assert {source.label for source in row.sources} == {"Call", "Brief"}
    link = next(source.url for source in row.sources if source.label == "Call")
    assert link.startswith(reverse("call_detail", args=[call.pk])) and "#draft-" in link


def test_a_number_of_outfits_is_a_hole_until_each_is_named_and_worn(shoot: Shoot, owner: Member) -> None:
    call = calls.begin_call(studio=shoot.studio, shoot=shoot, notes="two outfits", by=owner, now=NOW)
    calls.accept_draft(draft=call.drafts.get(), by=owner, now=NOW)
    assert (states(shoot)["Outfit 1"], states(shoot)["Outfit 2"]) == ("hole", "hole")
    factories.make_shot(shoot, title="Red", outfits=["Red coat"])
    assert (states(shoot)["Red coat"], states(shoot)["Outfit 2"]) == ("served", "hole")
    factories.make_shot(shoot, title="Blue", outfits=["Blue coat"])
    assert states(shoot)["Blue coat"] == "served" and "Outfit 2" not in states(shoot)


def test_the_licence_s_number_outweighs_the_brief_s_and_both_are_told(browser: Client, shoot: Shoot) -> None:
    Licence.objects.create(
        studio=shoot.studio,
        shoot=shoot,
        number="L-1",
        licensee={},
        granted_at=NOW,
        terms={"media": ["PACKAGING"], "picture_count": 3},
    )
    row = next(row for row in coverage_page(shoot).holes if row.title == "Finished pictures")
    assert (row.asked, row.tag) == ("3 pictures", "1 of 3")
    assert [(source.label, source.words) for source in row.disagree] == [("Brief", "2 pictures")]
    assert states(shoot)["Packaging"] == "hole"
    assert "Brief says 2 pictures." in browser.get(url("coverage_detail")).content.decode()


def test_what_the_client_approved_stays_promised_when_the_brief_drops_it(shoot: Shoot) -> None:
    said = {"purpose": "A pack for bad weather", "placements": ["EMAIL"], "territories": ["GB"], "usage_months": 12}
    Brief.objects.filter(shoot=shoot).update(**said)
    version = agreements.send(shoot)
    Brief.objects.filter(shoot=shoot).update(products="5 litre vest, slate", finals_wanted=1)
    assert "12 litre pack" not in states(shoot)
    BriefVersion.objects.filter(pk=version.pk).update(approved_at=NOW)
    row = next(row for row in coverage_page(shoot).holes if row.title == "12 litre pack")
    assert [source.label for source in row.sources] == ["Approved brief"]
    assert states(shoot)["Finished pictures"] == "1 of 2"


def test_only_an_accepted_quote_promises_finished_pictures(shoot: Shoot) -> None:
    quote = Quote.objects.create(studio=shoot.studio, shoot=shoot, number="Q-1", sent_at=NOW)
    QuoteLine.objects.create(
        studio=shoot.studio, quote=quote, kind="FINISHING", description="Finishing", unit_price=1, quantity=5
    )
    assert states(shoot)["Finished pictures"] == "1 of 2"
    Quote.objects.filter(pk=quote.pk).update(accepted_at=NOW)
    assert states(shoot)["Finished pictures"] == "1 of 5"


def test_extra_shots_are_named_and_none_is_deleted(browser: Client, shoot: Shoot) -> None:
    for n in range(3):
        factories.make_shot(shoot, title=f"Pack {n}", products=["12 litre pack, burnt orange"], shapes=["4:5"])
    page = browser.get(url("coverage_detail")).content.decode()
    assert "These two cover what you promised, these two are extra." in page
    assert Shot.objects.filter(shoot=shoot).count() == 4


def test_a_shot_that_was_taken_belongs_to_the_set(shoot: Shoot) -> None:
    for n in range(2):
        factories.make_shot(shoot, title=f"Pack {n}", products=["12 litre pack"], position=30_000 + n)
    Shot.objects.filter(title="Pack 1").update(got_at=NOW)
    page = coverage_page(shoot)
    assert page.smallest and [card.shot.title for card in page.smallest.shots] == ["The vest", "Pack 1"]


def test_a_shot_that_nobody_asked_for_is_told(shoot: Shoot) -> None:
    factories.make_shot(shoot, title="A dog", shapes=["1:1"])
    assert [card.shot.title for card in coverage_page(shoot).unasked] == ["A dog"]


def test_drafts_are_shown_first_and_then_taken_up_with_their_reason(browser: Client, shoot: Shoot) -> None:
    page = browser.get(url("missing_take_up"))
    assert "1 shot would fill the holes" in page.content.decode()
    assert Shot.objects.filter(shoot=shoot).count() == 1
    draft = page.context["page"].drafts[0]
    assert draft.title == "12 litre pack" and len(draft.why) == 2
    answer = browser.post(
        url("missing_take_up"), {f"take-{draft.mark}": "on", f"title-{draft.mark}": "Pack in the rain"}
    )
    made = Shot.objects.get(title="Pack in the rain")
    assert answer["Location"] == url("shot_list") + f"#shot-{made.pk}"
    assert [product.name for product in made.products.all()] == ["12 litre pack"]
    assert "12 litre pack: 1 picture at least" in made.note
    assert coverage_page(shoot).holes == ()


def test_taking_the_same_drafts_up_twice_adds_them_once(browser: Client, shoot: Shoot) -> None:
    draft = browser.get(url("missing_take_up")).context["page"].drafts[0]
    for _ in range(2):
        browser.post(url("missing_take_up"), {f"take-{draft.mark}": "on", f"title-{draft.mark}": "Pack"})
    assert Shot.objects.filter(shoot=shoot).count() == 2


def test_a_draft_without_a_title_is_refused_and_nothing_is_added(browser: Client, shoot: Shoot) -> None:
    draft = browser.get(url("missing_take_up")).context["page"].drafts[0]
    answer = browser.post(url("missing_take_up"), {f"take-{draft.mark}": "on", f"title-{draft.mark}": "  "})
    assert answer.status_code == 422 and Shot.objects.filter(shoot=shoot).count() == 1
    assert "Say what is in the picture." in answer.content.decode()


def test_no_ticks_add_nothing(browser: Client, shoot: Shoot) -> None:
    draft = browser.get(url("missing_take_up")).context["page"].drafts[0]
    browser.post(url("missing_take_up"), {f"title-{draft.mark}": "Pack"})
    assert Shot.objects.filter(shoot=shoot).count() == 1


def test_a_drafted_hero_counts_as_one(browser: Client, shoot: Shoot) -> None:
    actions.state_promise(shoot=shoot, fields={"kind": "HERO", "shape": "3:2"}, by=None, now=NOW)
    page = browser.get(url("missing_take_up")).context["page"]
    browser.post(
        url("missing_take_up"),
        {
            key: value
            for draft in page.drafts
            for key, value in ((f"take-{draft.mark}", "on"), (f"title-{draft.mark}", "x"))
        },
    )
    assert coverage_page(shoot).holes == ()


def test_the_studio_s_word_takes_the_place_of_what_was_read_and_can_be_taken_back(
    browser: Client, shoot: Shoot
) -> None:
    form = browser.get(url("promise_new"), {"key": "PRODUCT=12 litre pack"})
    assert form.context["form"].initial["product"] == "12 litre pack"
    mood = factories.make_mood(shoot)
    typed = {"key": "PRODUCT=12 litre pack", "least": "2", "product": "12 litre pack", "mood": mood.pk, "crops": "0"}
    assert browser.post(url("promise_new"), typed).status_code == 302
    assert states(shoot)["12 litre pack · Storm coming"] == "hole" and "12 litre pack" not in states(shoot)
    own = Promise.objects.get(shoot=shoot)
    assert Entry.objects.filter(deed="promise_stated", shoot_code="26-001").count() == 1
    # A second window that says the same is told, and what it typed stays.
    again = browser.post(url("promise_new"), typed | {"because": "Her e-mail"})
    assert again.status_code == 422 and "Her e-mail" in again.content.decode()
    browser.post(url("promise_take_back", own.pk))
    assert states(shoot)["12 litre pack"] == "hole" and not Promise.objects.filter(shoot=shoot).exists()


def test_a_changed_promise_is_not_overwritten_by_an_older_window(browser: Client, shoot: Shoot) -> None:
    own = actions.state_promise(shoot=shoot, fields={"product": "Cap"}, by=None, now=NOW)
    opened = {"version": own.version, "least": "1", "product": "Cap, red", "crops": "0"}
    assert browser.post(url("promise_edit", own.pk), opened).status_code == 302
    assert browser.post(url("promise_edit", own.pk), opened | {"product": "Cap, blue"}).status_code == 422
    assert Promise.objects.get().product == "Cap, red"


def test_what_is_left_out_no_longer_counts_and_can_be_taken_in_again(browser: Client, shoot: Shoot) -> None:
    browser.post(url("promise_leave_out"), {"key": "PRODUCT=12 litre pack"})
    assert "12 litre pack" not in states(shoot)
    page = coverage_page(shoot)
    assert [row.title for row, _own in page.left_out] == ["12 litre pack"]
    browser.post(url("promise_take_back", page.left_out[0][1]))
    assert states(shoot)["12 litre pack"] == "hole"


@pytest.mark.parametrize("key", ["", "PRODUCT=moon", "own:1", "x" * 5000])
def test_leaving_out_what_is_not_there_changes_nothing(browser: Client, shoot: Shoot, key: str) -> None:
    assert browser.post(url("promise_leave_out"), {"key": key}).status_code == 302
    assert not Promise.objects.exists()


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("least", "0"),
        ("least", ""),
        ("most", "1"),
        ("shape", "blob"),
        ("shape", "4:5, 9:16"),
        ("mood", "999999"),
        ("kind", "X"),
    ],
)
def test_what_can_t_be_meant_is_refused_by_the_field(browser: Client, shoot: Shoot, field: str, value: str) -> None:
    typed = {"least": "2", "product": "Cap <b>", "crops": "0", field: value}
    answer = browser.post(url("promise_new"), typed)
    assert answer.status_code == 422 and answer.context["form"].errors[field]
    assert "Cap &lt;b&gt;" in answer.content.decode() and not Promise.objects.exists()


def test_a_key_that_is_not_there_is_not_found(browser: Client, shoot: Shoot) -> None:
    assert browser.get(url("promise_new"), {"key": "PRODUCT=moon"}).status_code == 404


def test_another_shoot_s_mood_can_t_be_promised(browser: Client, shoot: Shoot, studio: Studio) -> None:
    other = factories.make_mood(factories.make_shoot(studio))
    answer = browser.post(url("promise_new"), {"least": "1", "crops": "0", "mood": other.pk})
    assert answer.status_code == 422 and answer.context["form"].errors["mood"]


@pytest.mark.parametrize("asked", ["?down=PRODUCT&across=PRODUCT", "?down=x&across=y", "?down=MOOD&across=OUTFIT", ""])
def test_the_table_has_whatever_sides_are_asked_for(browser: Client, shoot: Shoot, asked: str) -> None:
    assert browser.get(url("coverage_detail") + asked).status_code == 200


def test_a_shoot_without_anything_says_what_to_do(browser: Client, studio: Studio) -> None:
    empty = factories.make_shoot(studio, code="26-002")
    page = browser.get(reverse("coverage_detail", args=[empty.code])).content.decode()
    assert "Nothing that was promised has been written down yet." in page
    assert browser.get(reverse("missing_take_up", args=[empty.code])).status_code == 200


def test_crew_see_it_without_ways_to_change_it(signed_in, shoot: Shoot, studio: Studio) -> None:  # type: ignore[no-untyped-def]
    from shoots.members.core import Role

    crew = factories.make_member(studio, Role.CREW)
    factories.make_booking(shoot, person=factories.make_person(studio, email=crew.user.email))
    page = signed_in(crew).get(url("coverage_detail"))
    assert page.status_code == 200
    text = page.content.decode()
    assert "Write a promise down" not in text and "leave-out" not in text


def test_as_many_queries_for_two_hundred_shots_and_sixty_promises_as_for_one(browser: Client, shoot: Shoot) -> None:
    def queries() -> int:
        with CaptureQueriesContext(connection) as caught:
            assert browser.get(url("coverage_detail")).status_code == 200
        return len(caught)

    few = queries()
    mood = factories.make_mood(shoot)
    for n in range(60):
        actions.state_promise(shoot=shoot, fields={"product": f"Thing {n}", "mood": mood}, by=None, now=NOW)
    for n in range(200):
        factories.make_shot(
            shoot, title=f"Shot {n}", products=[f"Thing {n % 70}"], mood=mood, outfits=["Red"], subjects=["Leo"]
        )
    # Samples of products and people of subjects are asked for once there are any.
    assert queries() <= few + 2
    many = queries()
    for n in range(100):
        factories.make_shot(
            shoot, title=f"More {n}", products=[f"Thing {n % 70}"], mood=mood, outfits=["Red"], subjects=["Leo"]
        )
    assert queries() == many


def test_a_drawing_is_on_the_page_once_however_many_promises_its_shots_serve(browser: Client, shoot: Shoot) -> None:
    """Each of five hundred shots came with its own outlines under every promise: 3.4 MB."""
    page = browser.get(url("coverage_detail")).content.decode()
    drawings = {card.drawing for card in shot_list(shoot).cards}
    assert page.count("<symbol id=") == len(drawings)
    assert all(f'href="#{name}"' in page for name in drawings)
    assert "<path" not in page.partition("promised-head")[2]


def test_without_promises_no_shot_is_said_to_keep_them(browser: Client, studio: Studio) -> None:
    factories.make_shoot(studio, code="26-009")
    page = browser.get(reverse("missing_take_up", args=["26-009"])).content.decode()
    assert "Nothing was promised yet" in page and "Everything that was promised" not in page
