"""What shots pick from: products, outfits, subjects and finishing; by rows and by names."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.urls import reverse

from shoots.members.actions import EditedMeanwhile
from shoots.quotes.models import RateKind
from shoots.quotes.queries.card import rates_at_hand, suggestions
from shoots.shotlist.actions import shots as actions
from shoots.shotlist.actions.parts import FinishingWanted, find_or_add
from shoots.shotlist.models import FinishingItem, Product, Shot, Subject
from shoots.shotlist.queries import products_without_sample
from shoots.trail.models import Entry
from tests import factories
from tests.factories import NOW


@pytest.fixture
def shoot(studio):
    return factories.make_shoot(studio, code="26-001")


def test_a_name_is_one_row_however_it_is_written(shoot, owner, now) -> None:
    pack = factories.make_product(shoot, name="12 litre pack")
    rows = find_or_add(Product, shoot, ["12  LITRE pack", "Vest", pack, "", "vest"], by=owner, now=now)
    assert [row.name for row in rows] == ["12 litre pack", "Vest"]
    assert rows[0] == pack and Product.objects.count() == 2


def test_a_shoot_s_products_are_its_own(shoot, studio, owner, now) -> None:
    other = factories.make_product(factories.make_shoot(studio), name="Vest")
    (row,) = find_or_add(Product, shoot, ["Vest"], by=owner, now=now)
    assert row != other and row.shoot == shoot


def test_a_shot_is_added_and_copied_with_all_that_is_in_it(shoot, owner, now) -> None:
    shot = actions.add_shot(
        shoot=shoot,
        by=owner,
        now=now,
        title="Runner",
        products=["Pack", "Vest"],
        outfits=["Storm kit"],
        subjects=["Runner"],
        finishing=[FinishingWanted("A flare added", 2, Decimal(30))],
    )
    twin = Shot.objects.with_parts().get(pk=actions.duplicate_shot(shot=shot, by=owner, now=now).pk)
    assert (twin.product, twin.outfit, twin.people, twin.finishing) == (
        "Pack; Vest",
        "Storm kit",
        "Runner",
        "A flare added",
    )
    assert FinishingItem.objects.filter(pictures=2, price=30).count() == 2
    assert Product.objects.count() == 2


def test_an_edit_says_in_the_trail_what_was_taken_out_and_put_in(shoot, owner, now) -> None:
    shot = factories.make_shot(shoot, products=["Pack"])
    changes = {"products": ["Vest"], "finishing": [FinishingWanted("Sky darkened")]}
    actions.edit_shot(shot=shot, changes=changes, seen_version=1, by=owner, now=now)
    entry = Entry.objects.filter(deed="edited").get()
    assert entry.changes == {"products": [["Pack"], ["Vest"]], "finishing": [[], ["Sky darkened"]]}
    with pytest.raises(EditedMeanwhile):
        actions.edit_shot(shot=shot, changes={"products": ["Bottle"]}, seen_version=1, by=owner, now=now)
    assert Shot.objects.get().product == "Vest"


def test_a_subject_carries_the_name_of_who_was_cast(studio, shoot) -> None:
    leo = factories.make_person(studio, name="Leo Strand", kind="TALENT")
    assert str(Subject(name="Runner", person=leo)) == "Runner (Leo Strand)"
    assert str(Subject(name="leo strand", person=leo)) == "leo strand"
    assert str(Subject(name="Runner")) == "Runner"


def test_the_form_stores_new_names_beside_ticked_ones_and_the_finishing(browser, shoot) -> None:
    pack = factories.make_product(shoot, name="Pack")
    shot = factories.make_shot(shoot)
    form = {
        "version": 1,
        "title": "Runner",
        "framing": "WIDE",
        "orientation": "LANDSCAPE",
        "shapes": "3:2, 9:16",
        "placements": ["WEB_SHOP"],
        "products": [pack.pk],
        "more_products": "Vest, slate; pack",
        "more_subjects": "Runner",
        "moment": "LOW_EVE",
        "moment_note": "sun along the wall",
        "priority": "MUST",
        "minutes": "20",
        "finals": "2",
        "finishing-TOTAL_FORMS": "2",
        "finishing-INITIAL_FORMS": "0",
        "finishing-0-what": "A flare added",
        "finishing-0-price": "30",
        "finishing-1-what": "",
    }
    address = reverse("shot_edit", args=["26-001", shot.pk])
    assert browser.post(address, form).status_code == 302
    shot = Shot.objects.with_parts().get()
    assert shot.product == "Pack; Vest, slate"
    assert (shot.people, shot.orientation, shot.moment, shot.placements) == (
        "Runner",
        "LANDSCAPE",
        "LOW_EVE",
        ["WEB_SHOP"],
    )
    assert [(i.what, i.pictures, i.price) for i in shot.finishing_items.all()] == [("A flare added", None, 30)]
    page = browser.get(address).content.decode()
    assert "A flare added" in page and "sun along the wall" in page


@pytest.mark.parametrize(
    "line",
    [
        {"finishing-0-what": "", "finishing-0-price": "30"},
        {"finishing-0-what": "A; B"},
        {"finishing-0-what": "Flare", "finishing-0-price": "-1"},
        {"finishing-0-what": "Flare", "finishing-0-pictures": "0"},
    ],
)
def test_a_wrong_line_of_finishing_is_told_and_nothing_is_saved(browser, shoot, line) -> None:
    shot = factories.make_shot(shoot)
    form = {"version": 1, "title": "Changed", "framing": "WIDE", "priority": "MUST", "minutes": "20", "finals": "1"}
    form |= {"finishing-TOTAL_FORMS": "1", "finishing-INITIAL_FORMS": "0", **line}
    answer = browser.post(reverse("shot_edit", args=["26-001", shot.pk]), form)
    assert answer.status_code == 422 and answer.context["finishing"].errors[0]
    assert Shot.objects.get().title != "Changed"


def test_a_shot_cannot_take_products_of_another_shoot(browser, shoot, studio) -> None:
    shot, other = factories.make_shot(shoot), factories.make_product(factories.make_shoot(studio))
    form = {"version": 1, "title": "Changed", "framing": "WIDE", "priority": "MUST", "minutes": "20", "finals": "1"}
    answer = browser.post(reverse("shot_edit", args=["26-001", shot.pk]), form | {"products": [other.pk]})
    assert list(answer.context["form"].errors) == ["products"]


def add_rate(studio, description: str, price: int):
    from shoots.quotes.models import Rate

    return Rate.objects.create(
        studio=studio, kind=RateKind.FINISHING, description=description, unit="picture", unit_price=price
    )


def finishing_lines(shoot):
    found = suggestions(shoot, rates_at_hand(shoot.studio), currency="GBP")
    return [(item.description, item.quantity, item.unit_price) for item in found if item.kind == RateKind.FINISHING]


def test_planned_finishing_becomes_lines_of_the_quote(studio, shoot, owner, now) -> None:
    add_rate(studio, "Finishing, each picture", 48)
    add_rate(studio, "Rear light warmed", 25)
    flare = FinishingWanted("A flare added", 1, Decimal("30.00"))
    actions.add_shot(shoot=shoot, by=owner, now=now, title="A", finals=3, finishing=[flare])
    warm = FinishingWanted("rear light warmed")
    actions.add_shot(shoot=shoot, by=owner, now=now, title="B", finals=2, finishing=[warm, flare])
    actions.add_shot(shoot=shoot, by=owner, now=now, title="C", finals=0, finishing=[FinishingWanted("Sky", 1)])
    assert finishing_lines(shoot) == [
        ("Finishing, each picture", 5, 48),
        ("A flare added", 2, Decimal("30.00")),
        ("Rear light warmed", 2, 25),
        ("Sky", 1, None),
    ]


def test_one_finishing_at_two_prices_is_two_lines_with_different_words(studio, shoot, owner, now) -> None:
    for price in ("30.00", "45.00"):
        wanted = [FinishingWanted("Flare", None, Decimal(price))]
        actions.add_shot(shoot=shoot, by=owner, now=now, title=price, finishing=wanted)
    assert [line[0] for line in finishing_lines(shoot)][1:] == ["Flare, at 30.00", "Flare, at 45.00"]


def test_a_price_in_the_shoot_s_currency_is_none_in_another(studio, shoot, owner, now) -> None:
    wanted = [FinishingWanted("Flare", None, Decimal(30))]
    actions.add_shot(shoot=shoot, by=owner, now=now, title="A", finishing=wanted)
    found = suggestions(shoot, rates_at_hand(studio), currency="EUR")
    assert [item.unit_price for item in found if item.description == "Flare"] == [None]


@pytest.mark.parametrize(
    ("sample", "shot", "missing"),
    [
        (None, {}, False),
        ({}, {}, True),
        ({"arrived_date": NOW.date()}, {}, False),
        ({"arrived_date": NOW.date(), "condition": "UNFIT"}, {}, True),
        ({"arrived_date": NOW.date(), "returned_date": NOW.date()}, {}, True),
        ({}, {"priority": "WISH"}, False),
        ({}, {"got_at": NOW}, False),
    ],
)
def test_a_promised_shot_needs_a_sample_that_can_be_shown(shoot, sample, shot, missing) -> None:
    product = factories.make_product(shoot, name="Vest")
    if sample is not None:
        factories.make_sample(product, **sample)
    day, other = factories.make_day(shoot), factories.make_day(shoot)
    factories.make_shot(shoot, products=[product], day=day, **shot)
    assert products_without_sample(shoot, day) == (("Vest",) if missing else ())
    assert products_without_sample(shoot, None) == (("Vest",) if missing else ())
    assert products_without_sample(shoot, other) == ()
