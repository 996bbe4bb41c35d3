"""What can go on the lens together."""

import pytest

from shoots.kit.core.cameras import FilterSpec
from shoots.lighting.core.filterbag import filter_choices
from shoots.values.units import OutOfRange


def test_an_empty_bag_leaves_the_lens_bare() -> None:
    assert filter_choices([]) == ((),)


def test_fewer_filters_come_first_and_each_is_there_once() -> None:
    found = filter_choices([FilterSpec(10.0), FilterSpec(3.0), FilterSpec(6.0)])
    assert found[0] == ()
    assert found[1:4] == ((3.0,), (6.0,), (10.0,))
    assert found[-1] == (3.0, 6.0, 10.0)
    assert len(found) == len(set(found)) == 8


def test_what_is_not_in_the_bag_comes_last_and_alone() -> None:
    assert filter_choices([FilterSpec(3.0)], (2.0, 3.0)) == ((), (3.0,), (2.0,))


def test_two_equal_filters_do_not_double_the_choices() -> None:
    assert filter_choices([FilterSpec(3.0), FilterSpec(3.0)]) == ((), (3.0,), (3.0, 3.0))


def test_too_many_filters_or_one_that_adds_light_are_refused() -> None:
    with pytest.raises(OutOfRange):
        filter_choices([FilterSpec(1.0)] * 9)
    with pytest.raises(OutOfRange):
        filter_choices([], (-1.0,))
