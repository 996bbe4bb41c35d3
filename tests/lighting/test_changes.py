"""From setup to setup: the page, the pairing of heads, and what an assistant is told."""

from __future__ import annotations

import re

import pytest
from django.urls import reverse

from shoots.kit.models import Panel
from shoots.lighting.core.changeover import ChangeKind
from shoots.lighting.models import PlacedPanel
from shoots.lighting.queries import changes, pages
from tests import factories


@pytest.fixture
def shoot(studio):
    return factories.make_shoot(studio, code="26-001")


@pytest.fixture
def two(shoot, studio):
    head, box = factories.make_lamp(studio, quantity=3), factories.make_modifier(studio)
    first = factories.make_setup(shoot, name="Rim of the quarry", aperture=8.0, position=0)
    factories.make_placed_lamp(first, lamp=head, modifier=box, role="KEY", bearing_deg=45, distance_m=1.5, position=0)
    factories.make_placed_lamp(first, lamp=head, role="RIM", bearing_deg=150, distance_m=2.5, position=1)
    second = factories.make_setup(shoot, name="Wet slab", aperture=11.0, position=1)
    factories.make_placed_lamp(second, lamp=head, role="RIM", bearing_deg=210, distance_m=2.5, position=0)
    factories.make_placed_lamp(second, lamp=head, modifier=box, role="KEY", bearing_deg=45, distance_m=2.5, position=1)
    factories.make_placed_lamp(second, lamp=head, role="FILL", bearing_deg=340, distance_m=3.0, position=2)
    return first, second


def found(two):
    first, second = (pages.setups_to_show().get(pk=one.pk) for one in two)
    page = changes.side_by_side(first, second)
    return page, {(doing.kind, doing.letter): doing for stage in page.stages for doing in stage.doings}


def test_the_same_head_in_the_same_job_is_moved_not_taken_down(two) -> None:
    page, doings = found(two)
    assert (ChangeKind.MOVE, "A → B") in doings  # the key is A on the first plan, B on the second
    assert (ChangeKind.MOVE, "B → A") in doings
    assert not [kind for kind, _letter in doings if kind is ChangeKind.TAKE_AWAY]
    assert [letter for kind, letter in doings if kind is ChangeKind.ADD] == ["C"]
    assert doings[ChangeKind.MOVE, "A → B"].deed == "to 2.5 m, 45° to camera left"
    assert doings[ChangeKind.MOVE, "A → B"].detail == "1.0 m along the floor"
    assert doings[ChangeKind.APERTURE, ""].deed == "f/11"
    assert page.minutes == pytest.approx(sum(one.minutes for one in doings.values()))


def test_a_head_more_than_there_was_is_put_up_with_all_that_an_assistant_needs(two) -> None:
    _page, doings = found(two)
    put_up = doings[ChangeKind.ADD, "C"]
    assert put_up.subject == "Fill, 300 Ws battery head"
    assert "its standard reflector" in put_up.deed
    assert "20° to camera right" in put_up.deed
    assert "power 1/1" in put_up.detail


def test_the_way_back_takes_down_what_was_put_up(two) -> None:
    _page, doings = found((two[1], two[0]))
    assert [letter for kind, letter in doings if kind is ChangeKind.TAKE_AWAY] == ["C"]


def test_a_setup_and_itself_need_nothing(two) -> None:
    page, doings = found((two[0], two[0]))
    assert (doings, page.minutes) == ({}, 0.0)


def test_panels_are_put_up_moved_and_taken_away(two, studio) -> None:
    board = Panel.objects.create(studio=studio, name="White board", kind="REFLECTOR", width_m=1.2, height_m=2.4)
    PlacedPanel.objects.create(studio=studio, setup=two[1], panel=board, distance_m=1.0, bearing_deg=300)
    _page, doings = found(two)
    assert doings[ChangeKind.ADD, "1"].subject == "White board"
    PlacedPanel.objects.create(studio=studio, setup=two[0], panel=board, distance_m=2.0, bearing_deg=300)
    _page, doings = found(two)
    assert doings[ChangeKind.MOVE, "1"].detail == "1.0 m"
    PlacedPanel.objects.filter(setup=two[0]).update(distance_m=1.0, turn_deg=0.0, tilt_deg=0.0)
    PlacedPanel.objects.filter(setup=two[1]).update(turn_deg=90.0, tilt_deg=0.0)
    _page, doings = found(two)
    turn = doings[ChangeKind.TURN, "1"]
    assert (turn.deed, turn.detail) == ("turn it where it stands", "90°")
    PlacedPanel.objects.filter(setup=two[1]).delete()
    _page, doings = found(two)
    assert doings[ChangeKind.TAKE_AWAY, "1"].deed == "take it away"


def test_a_number_that_cannot_be_meant_is_said_not_thrown(browser, two, studio) -> None:
    flag = Panel.objects.create(studio=studio, name="Flag", kind="FLAG")
    PlacedPanel.objects.create(studio=studio, setup=two[1], panel=flag, covers=7.0)
    page, doings = found(two)
    assert (page.impossible, doings) == ("covers", {})
    assert "impossible in one of the two" in browser.get(reverse("setup_compare", args=["26-001"])).content.decode()


def test_the_page_shows_both_plans_and_the_list(browser, two) -> None:
    address = reverse("setup_compare", args=["26-001"])
    shown = browser.get(address, {"from": two[0].pk, "to": two[1].pk}).content.decode()
    assert "From “Rim of the quarry” to “Wet slab”" in shown
    assert shown.count('class="plan"') == 2
    assert "minutes for one person" in shown and "the sum of those beside each thing" in shown
    rows = [float(n) for n in re.findall(r"change-min\">([\d.]+) min", shown)]
    assert rows and sum(rows) == pytest.approx(found(two)[0].minutes)
    # Whatever is asked for, the page opens: the first two setups, or those that there are.
    for asked in ({}, {"from": "x"}, {"from": "999999", "to": two[0].pk}, {"to": two[0].pk}):
        assert browser.get(address, asked).status_code == 200


def test_with_one_setup_there_is_no_way_and_the_page_says_so(browser, shoot) -> None:
    factories.make_setup(shoot)
    assert "two setups" in browser.get(reverse("setup_compare", args=["26-001"])).content.decode()


def test_the_number_of_queries_does_not_grow_with_the_lights(two, shoot, django_assert_max_num_queries) -> None:
    with django_assert_max_num_queries(4):
        _setups, first, second = changes.pair_of(shoot, str(two[0].pk), str(two[1].pk))
        changes.side_by_side(first, second)
