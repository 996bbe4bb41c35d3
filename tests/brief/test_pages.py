"""The brief in the browser: what is open, what is typed, who may."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.urls import reverse

from shoots.brief.models import Brief, Mood
from shoots.trail.models import Entry
from tests import factories

TYPED = {
    "version": "1",
    "purpose": "A pack for the hills",
    "audience": "Runners",
    "products": "Pack",
    "placements": ["OWN_WEBSITE", "PACKAGING"],
    "territories": "UK and Ireland, world except US",
    "usage_months": "24",
    "finals_wanted": "12",
    "shapes": "4:5, 9:16",
    "wished_dates": "second week of June",
    "budget": "4321.00",
    "must_haves": "",
    "must_nots": "",
    "approvers": "Mara",
}


@pytest.fixture
def shoot(studio):
    return factories.make_shoot(studio, code="26-001")


def url(name, *args):
    return reverse(name, args=["26-001", *args])


def test_an_empty_brief_lists_its_questions_most_expensive_first(browser, shoot) -> None:
    page = browser.get(url("brief_detail"))
    gaps = [question.gap for question in page.context["page"].questions]
    assert gaps[:3] == ["TERM", "TERRITORIES", "PLACEMENTS"]
    text = page.content.decode()
    assert text.index("For how long will the pictures be used?") < text.index("Which shapes")


def test_what_is_typed_is_stored_and_its_questions_are_gone(browser, shoot) -> None:
    answer = browser.post(url("brief_edit"), TYPED)
    assert answer.status_code == 302
    brief = Brief.objects.get(shoot=shoot)
    assert brief.placements == ["OWN_WEBSITE", "PACKAGING"]
    assert brief.territories == ["UK_IRELAND", "world", "-US"]
    assert (brief.usage_months, brief.finals_wanted, brief.budget) == (24, 12, Decimal(4321))
    assert brief.shapes == ["4:5", "9:16"]
    gaps = [question.gap for question in browser.get(url("brief_detail")).context["page"].questions]
    assert gaps == ["MOOD", "MUST_NOTS", "MUST_HAVES"]
    assert Entry.objects.get(deed="edited", record=f"brief:{brief.pk}").shoot_code == "26-001"


@pytest.mark.parametrize(
    ("field", "typed", "says"),
    [
        ("territories", "UK, Narnia", "Narnia"),
        ("shapes", "4:5, blob", "blob"),
        ("usage_months", "0", "greater than or equal to 1"),
        ("usage_months", "-3", "greater than or equal to"),
        ("budget", "-1", "greater than or equal to 0"),
        ("budget", "lots", "Enter a number"),
        ("finals_wanted", "0", "greater than or equal to 1"),
        ("placements", ["BILLBOARD_ON_MARS"], "not one of the available choices"),
    ],
)
def test_wrong_input_is_named_by_its_field_and_everything_typed_stays(browser, shoot, field, typed, says) -> None:
    page = browser.post(url("brief_edit"), TYPED | {field: typed})
    assert page.status_code == 422
    assert list(page.context["form"].errors) == [field]
    text = page.content.decode()
    assert says in text
    assert "second week of June" in text
    assert "A pack for the hills" in text
    assert isinstance(typed, list) or f'value="{typed}"' in text
    assert Brief.objects.get(shoot=shoot).purpose == ""


def test_months_and_for_good_exclude_each_other(browser, shoot) -> None:
    page = browser.post(url("brief_edit"), TYPED | {"usage_for_good": "on"})
    assert page.status_code == 422
    assert "usage_months" in page.context["form"].errors


def test_the_second_of_two_windows_is_told_and_loses_nothing(browser, shoot) -> None:
    browser.post(url("brief_edit"), TYPED)
    late = browser.post(url("brief_edit"), TYPED | {"purpose": "Typed in the other window"})
    assert late.status_code == 422
    assert "Typed in the other window" in late.content.decode()
    assert "in the meantime" in late.content.decode()
    assert Brief.objects.get(shoot=shoot).purpose == "A pack for the hills"
    version = late.context["form"]["version"].value()
    again = browser.post(url("brief_edit"), TYPED | {"purpose": "Typed in the other window", "version": version})
    assert again.status_code == 302
    assert Brief.objects.get(shoot=shoot).purpose == "Typed in the other window"


def test_a_shoot_without_a_stored_brief_shows_an_empty_one_and_stores_it_when_saved(browser, shoot) -> None:
    Brief.objects.all().delete()
    assert browser.get(url("brief_detail")).status_code == 200
    assert browser.get(url("brief_edit")).status_code == 200
    assert not Brief.objects.exists()
    assert browser.post(url("brief_edit"), TYPED | {"version": "0"}).status_code == 302
    assert Brief.objects.get(shoot=shoot).finals_wanted == 12


def test_the_form_shows_what_was_stored_so_that_saving_it_changes_nothing(browser, shoot) -> None:
    browser.post(url("brief_edit"), TYPED | {"territories": "DACH, Benelux, -Austria"})
    before = Brief.objects.values().get(shoot=shoot)
    form = browser.get(url("brief_edit")).context["form"]
    shown = {name: form[name].value() for name in form.fields}
    shown = {name: value for name, value in shown.items() if value not in (None, False)}
    assert browser.post(url("brief_edit"), shown).status_code == 302
    after = Brief.objects.values().get(shoot=shoot)
    assert {**after, "version": 0} == {**before, "version": 0}


def test_crew_read_the_brief_of_their_shoot_without_money_and_change_nothing(crew, signed_in, shoot) -> None:
    Brief.objects.filter(shoot=shoot).update(budget=4321, purpose="A pack for the hills")
    browser = signed_in(crew)
    assert browser.get(url("brief_detail")).status_code == 404
    person = factories.make_person(shoot.studio, email=crew.user.email)
    factories.make_booking(shoot, person=person)
    text = browser.get(url("brief_detail")).content.decode()
    assert "A pack for the hills" in text
    assert "4,321" not in text
    assert "udget" not in text
    assert url("brief_edit") not in text
    for name in ("brief_edit", "mood_new"):
        assert browser.get(url(name)).status_code == 403
        assert browser.post(url(name), TYPED).status_code == 403


def test_the_bookkeeper_reads_and_the_producer_writes(bookkeeper, producer, signed_in, shoot) -> None:
    assert signed_in(bookkeeper).get(url("brief_detail")).status_code == 200
    assert signed_in(bookkeeper).post(url("brief_edit"), TYPED).status_code == 403
    assert signed_in(producer).post(url("brief_edit"), TYPED).status_code == 302


def test_another_studio_s_brief_is_not_found(other_studio, signed_in, shoot) -> None:
    mood = factories.make_mood(shoot)
    browser = signed_in(factories.make_member(other_studio))
    for address in (url("brief_detail"), url("brief_edit"), url("mood_new"), url("mood_edit", mood.pk)):
        assert browser.get(address).status_code == 404
    for address in (url("brief_edit"), url("mood_remove", mood.pk), url("mood_move", mood.pk)):
        assert browser.post(address, {}).status_code == 404


def test_moods_are_added_edited_moved_and_removed(browser, shoot) -> None:
    browser.post(url("mood_new"), {"name": "Storm", "words": "wet stone", "brightness": "12"})
    browser.post(url("mood_new"), {"name": "Morning", "words": "", "brightness": "84"})
    storm, morning = Mood.objects.filter(shoot=shoot)
    browser.post(url("mood_move", morning.pk), {"way": "up"})
    assert [mood.name for mood in Mood.objects.filter(shoot=shoot)] == ["Morning", "Storm"]
    browser.post(url("mood_move", morning.pk), {"way": "up"})
    assert [mood.name for mood in Mood.objects.filter(shoot=shoot)] == ["Morning", "Storm"]
    typed = {"name": "Storm coming", "words": "wet stone", "brightness": "10", "version": storm.version}
    assert browser.post(url("mood_edit", storm.pk), typed).status_code == 302
    assert browser.post(url("mood_edit", storm.pk), typed | {"name": "Late"}).status_code == 422
    assert Mood.objects.get(pk=storm.pk).name == "Storm coming"
    browser.post(url("mood_remove", morning.pk))
    assert [mood.name for mood in Mood.objects.filter(shoot=shoot)] == ["Storm coming"]


@pytest.mark.parametrize("typed", ["101", "-1", "bright"])
def test_a_mood_has_no_place_beyond_the_poles(browser, shoot, typed) -> None:
    page = browser.post(url("mood_new"), {"name": "Storm", "words": "wet", "brightness": typed})
    assert page.status_code == 422
    assert list(page.context["form"].errors) == ["brightness"]
    assert "wet" in page.content.decode()
    assert not Mood.objects.exists()


def test_a_mood_says_what_it_asks_of_the_light(browser, shoot) -> None:
    factories.make_mood(shoot, brightness=0)
    text = browser.get(url("brief_detail")).content.decode()
    assert "Ambient 2 to 3 stops under the subject, a hard key" in text
    assert "0 of 100 between dark and bright" in text


def test_the_page_takes_the_same_queries_for_one_mood_and_for_twenty(
    browser, shoot, django_assert_num_queries, django_assert_max_num_queries
) -> None:
    factories.make_mood(shoot)
    browser.get(url("brief_detail"))
    with django_assert_max_num_queries(30) as few:
        browser.get(url("brief_detail"))
    for n in range(19):
        factories.make_mood(shoot, position=n)
    with django_assert_num_queries(len(few)):
        browser.get(url("brief_detail"))


def test_dates_are_not_asked_for_once_days_are_held(browser, shoot) -> None:
    """The dates page named two confirmed days while the brief asked which dates suit."""

    def asked():
        return {question.gap: question.words for question in browser.get(url("brief_detail")).context["page"].questions}

    assert asked()["DATES"].startswith("Which dates suit")
    day = factories.make_day(shoot)
    assert asked()["DATES"] == "When must the pictures be there?"
    shoot.delivery_due_date = day.date
    shoot.save()
    assert "DATES" not in asked()
    day.released_at = factories.NOW
    day.save()
    assert asked()["DATES"].startswith("Which dates suit")
