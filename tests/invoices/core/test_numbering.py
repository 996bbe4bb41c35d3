"""How numbers are written. Own rules; what the law asks of them is named in the module."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.invoices.core.identifiers import make_rf_reference, read_rf_reference
from shoots.invoices.core.numbering import NumberNotPossible, Series, format_number, format_version

PLACES = st.tuples(st.integers(2000, 9999), st.integers(1, 10**8 - 1))


@given(PLACES, PLACES, st.integers(1, 8))
def test_two_places_in_a_series_never_share_a_number(first, second, width):
    series = Series("INV", width=width)
    numbers = [format_number(series, year=year, counter=counter) for year, counter in (first, second)]
    assert (numbers[0] == numbers[1]) == (first == second)


@given(st.integers(1, 10**8 - 1), st.integers(1, 10**8 - 1))
def test_without_a_year_the_counter_alone_makes_the_number(first, second):
    series = Series("CN", has_year=False)
    numbers = [format_number(series, year=2026, counter=counter) for counter in (first, second)]
    assert (numbers[0] == numbers[1]) == (first == second)


@given(PLACES, st.integers(1, 8), st.sampled_from(["I", "INV", "CREDIT"]))
def test_every_number_fits_a_payment_reference(place, width, prefix):
    year, counter = place
    number = format_number(Series(prefix, width=width), year=year, counter=counter)
    assert read_rf_reference(make_rf_reference(number))


def test_numbers_of_one_width_sort_as_they_were_given():
    numbers = [format_number(Series("INV"), year=2026, counter=counter) for counter in (1, 9, 10, 9999)]
    assert numbers == sorted(numbers)


def test_a_long_counter_is_written_in_full():
    assert format_number(Series("INV"), year=2026, counter=12345) == "INV-2026-12345"


@pytest.mark.parametrize(
    ("prefix", "width"), [("", 4), ("inv", 4), ("INV-", 4), ("I2", 4), ("TOOLONG", 4), ("INV", 0), ("INV", 9)]
)
def test_a_series_that_could_be_mistaken_is_refused(prefix, width):
    with pytest.raises(NumberNotPossible):
        Series(prefix, width=width)


@pytest.mark.parametrize(("year", "counter"), [(2026, 0), (2026, -1), (1999, 1), (2026, 10**12)])
def test_a_place_that_no_series_has_is_refused(year, counter):
    with pytest.raises(NumberNotPossible):
        format_number(Series("INV"), year=year, counter=counter)


def test_only_later_versions_show_which_they_are():
    assert [format_version("Q-2026-0012", version) for version in (1, 2)] == ["Q-2026-0012", "Q-2026-0012/2"]
    with pytest.raises(NumberNotPossible):
        format_version("Q-2026-0012", 0)
