"""Pages of products with their samples, outfits and people; and of many shots edited together."""

from __future__ import annotations

from datetime import date

import pytest
from django.urls import reverse

from shoots.shotlist.models import Outfit, Product, Sample, Shot, Subject
from tests import factories


@pytest.fixture
def shoot(studio):
    return factories.make_shoot(studio, code="26-001")


@pytest.fixture
def shots(shoot):
    return [factories.make_shot(shoot, title=f"Shot {n}", position=n, products=["Pack"]) for n in range(4)]


def url(name, *args):
    return reverse(name, args=["26-001", *args])


def test_products_are_taken_over_from_the_brief_once(browser, shoot) -> None:
    shoot.brief.products = "12 litre pack, slate\n\n5 litre vest; small\n12 LITRE pack, slate"
    shoot.brief.save()
    assert (
        "The brief also has: 12 litre pack, slate; 5 litre vest; small"
        in browser.get(url("shot_parts")).content.decode()
    )
    for _ in range(2):
        assert browser.post(url("products_take_over")).status_code == 302
    assert list(Product.objects.values_list("name", flat=True)) == ["12 litre pack, slate", "5 litre vest, small"]
    assert "The brief also has" not in browser.get(url("shot_parts")).content.decode()


def test_a_sample_is_noted_arrives_and_goes_back(browser, shoot, shots) -> None:
    pack = Product.objects.get()
    form = {"size": "M", "colour": "slate", "condition": "GOOD", "due_date": "2020-01-01", "version": "0"}
    assert browser.post(url("sample_new", pack.pk), form).status_code == 302
    sample = Sample.objects.get()
    page = browser.get(url("shot_parts")).content.decode()
    assert "late" in page and "in shots 1, 2, 3, 4" in page
    browser.post(url("sample_arrived", sample.pk))
    day = Sample.objects.get().arrived_date
    assert day is not None
    Sample.objects.update(arrived_date=date(2020, 1, 2))
    browser.post(url("sample_arrived", sample.pk))
    assert Sample.objects.get().arrived_date == date(2020, 1, 2)
    version = Sample.objects.get().version
    wrong = browser.post(
        url("sample_edit", sample.pk),
        form | {"arrived_date": "2020-01-02", "returned_date": "2020-01-01", "version": version},
    )
    assert list(wrong.context["form"].errors) == ["returned_date"]
    unarrived = browser.post(url("sample_edit", sample.pk), form | {"returned_date": "2020-01-01", "version": version})
    assert list(unarrived.context["form"].errors) == ["arrived_date"]
    assert browser.post(url("sample_remove", sample.pk)).status_code == 302 and not Sample.objects.exists()


def test_names_are_once_in_a_shoot_and_without_semicolons(browser, shoot) -> None:
    assert (
        browser.post(url("part_new", "outfit"), {"name": "Storm kit", "pieces": "Jacket", "version": "0"}).status_code
        == 302
    )
    outfit = Outfit.objects.get()
    for name in ("storm  KIT", "a; b", ""):
        page = browser.post(url("part_new", "outfit"), {"name": name, "version": "0"})
        assert list(page.context["form"].errors) == ["name"]
    assert (
        browser.post(
            url("part_edit", "outfit", outfit.pk), {"name": "Storm kit", "pieces": "x", "version": "1"}
        ).status_code
        == 302
    )
    late = browser.post(url("part_edit", "outfit", outfit.pk), {"name": "Late", "version": "1"})
    assert late.status_code == 422 and Outfit.objects.get().name == "Storm kit"
    assert browser.get(url("part_new", "hat")).status_code == 404


def test_a_removed_product_leaves_its_shots(browser, shoot, shots) -> None:
    pack = Product.objects.get()
    assert "4 shots have it" in browser.get(url("part_edit", "product", pack.pk)).content.decode()
    browser.post(url("part_remove", "product", pack.pk))
    assert not Product.objects.exists() and Shot.objects.count() == 4


def test_only_the_studio_s_people_are_cast(browser, shoot, studio, other_studio) -> None:
    own, other = factories.make_person(studio), factories.make_person(other_studio)
    page = browser.post(url("part_new", "subject"), {"name": "Runner", "person": other.pk, "version": "0"})
    assert list(page.context["form"].errors) == ["person"]
    browser.post(url("part_new", "subject"), {"name": "Runner", "person": own.pk, "version": "0"})
    assert Subject.objects.get().person == own


def test_parts_of_another_shoot_are_not_found_under_this_one(browser, shoot, studio) -> None:
    other = factories.make_product(factories.make_shoot(studio))
    sample = factories.make_sample(other)
    assert browser.get(url("part_edit", "product", other.pk)).status_code == 404
    assert browser.post(url("sample_new", other.pk)).status_code == 404
    for name in ("sample_edit", "sample_arrived", "sample_remove"):
        assert browser.post(url(name, sample.pk)).status_code == 404


def test_crew_read_where_samples_are_and_change_nothing(crew, signed_in, shoot, shots) -> None:
    factories.make_sample(Product.objects.get())
    factories.make_booking(shoot, person=factories.make_person(shoot.studio, email=crew.user.email))
    text = signed_in(crew).get(url("shot_parts")).content.decode()
    assert "awaited" in text and "<form" not in text.partition("<main")[2]


# Many shots together


def opened(browser, shots):
    page = browser.post(url("shot_many"), {"shot": [shot.pk for shot in shots]})
    assert page.status_code == 200
    return {"seen": page.context["seen"]}


def test_groups_are_ticked_by_their_address_without_script(browser, shoot, shots) -> None:
    setup = factories.make_setup(shoot, name="Rim")
    Shot.objects.filter(pk__in=[shots[0].pk, shots[2].pk]).update(setup=setup)
    text = browser.get(url("shot_pick"), {"pick": f"setup-{setup.pk}"}).content.decode()
    assert text.count(" checked") == 2
    assert browser.get(url("shot_pick"), {"pick": "all"}).content.decode().count(" checked") == 4
    assert browser.get(url("shot_pick"), {"pick": "x-1"}).content.decode().count(" checked") == 0


def test_fields_are_set_for_the_ticked_shots_shown_and_put_back(browser, shoot, shots) -> None:
    setup = factories.make_setup(shoot, name="Rim")
    form = opened(browser, shots[:2]) | {
        "setup": setup.pk,
        "minutes": "35",
        "moment": "-",
        "subjects_how": "ADD",
        "more_subjects": "Runner",
        "placements_how": "REPLACE",
        "placements": ["WEB_SHOP"],
        "finishing_how": "ADD",
        "finishing_what": "Flare",
    }
    answer = browser.post(url("shot_many"), form)
    assert answer.status_code == 302
    told = browser.get(answer["Location"]).content.decode()
    assert (
        "2 shots changed" in told and '<s class="quiet">20</s> <strong>35</strong>' in told and "Own web shop" in told
    )
    first, *_rest, last = Shot.objects.with_parts()
    assert (first.setup, first.minutes, first.people, first.placements, first.finishing) == (
        setup,
        35,
        "Runner",
        ["WEB_SHOP"],
        "Flare",
    )
    assert last.minutes == 20
    browser.post(url("shot_undo"))
    first = Shot.objects.with_parts().first()
    assert (first.setup, first.minutes, first.people, first.placements, first.finishing) == (None, 20, "", [], "")
    again = browser.post(url("shot_undo"), follow=True)
    assert "nothing to put back" in again.content.decode()


def test_an_undo_after_another_edit_changes_nothing(browser, shoot, shots) -> None:
    browser.post(url("shot_many"), opened(browser, shots) | {"minutes": "35"})
    Shot.objects.filter(pk=shots[0].pk).update(version=9, minutes=50)
    answer = browser.post(url("shot_undo"), follow=True)
    assert "Not put back" in answer.content.decode()
    assert sorted(Shot.objects.values_list("minutes", flat=True)) == [35, 35, 35, 50]


def test_one_saved_meanwhile_is_named_and_what_was_set_stays(browser, shoot, shots) -> None:
    form = opened(browser, shots) | {"minutes": "35"}
    Shot.objects.filter(pk=shots[1].pk).update(version=2)
    late = browser.post(url("shot_many"), form)
    text = late.content.decode()
    assert late.status_code == 422 and "“Shot 1”" in text and 'value="35"' in text
    assert set(Shot.objects.values_list("minutes", flat=True)) == {20}
    assert browser.post(url("shot_many"), {"seen": late.context["seen"], "minutes": "35"}).status_code == 302


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({}, "__all__"),
        ({"minutes": "0"}, "minutes"),
        ({"shapes": "blob"}, "shapes"),
        ({"products_how": "ADD"}, "products_how"),
        ({"more_products": "Vest"}, "products_how"),
        ({"placements": ["WEB_SHOP"]}, "placements_how"),
        ({"finishing_how": "ADD"}, "finishing_what"),
        ({"finishing_what": "Flare"}, "finishing_how"),
        ({"finishing_how": "ADD", "finishing_what": "Flare × 2"}, "finishing_what"),
        ({"purpose": "x", "emptied": ["purpose"]}, "purpose"),
        ({"setup": "999"}, "setup"),
    ],
)
def test_what_cannot_be_set_is_told_by_its_field(browser, shoot, shots, typed, field) -> None:
    page = browser.post(url("shot_many"), opened(browser, shots) | typed)
    assert page.status_code == 422 and list(page.context["form"].errors) == [field]
    assert not Shot.objects.exclude(version=1).exists()


def test_fields_are_emptied(browser, shoot, shots) -> None:
    Shot.objects.update(purpose="x", copy_space="y", shapes=["4:5"], mood=factories.make_mood(shoot))
    browser.post(url("shot_many"), opened(browser, shots) | {"emptied": ["purpose", "shapes"], "mood": "-"})
    assert set(Shot.objects.values_list("purpose", "copy_space", "mood")) == {("", "y", None)}
    assert Shot.objects.first().shapes == []


def test_ticked_shots_are_taken_off_the_list(browser, shoot, shots) -> None:
    browser.post(url("shot_remove_many"), opened(browser, shots[:3]))
    assert list(Shot.objects.values_list("title", flat=True)) == ["Shot 3"]
    browser.post(url("shot_remove_many"), {"seen": ["x", f"{shots[3].pk}:9"]})
    assert Shot.objects.count() == 1


def test_nothing_ticked_and_shots_of_others_are_nothing_to_edit(browser, shoot, shots, studio) -> None:
    other = factories.make_shot(factories.make_shoot(studio))
    assert browser.post(url("shot_many"), {"shot": [other.pk, "x"]})["Location"] == url("shot_pick")
    late = browser.post(url("shot_many"), {"seen": [f"{other.pk}:1"], "minutes": "35"})
    assert late.status_code == 422 and Shot.objects.get(pk=other.pk).minutes == 20
