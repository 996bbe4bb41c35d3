"""Emergency numbers. EU membership against python-stdnum's list of member states, kept by others."""

from __future__ import annotations

import pycountry
import pytest
from stdnum.eu.vat import MEMBER_STATES

from shoots.callsheet.core.emergency import emergency_numbers

#: Northern Ireland's prefix in VAT numbers is no country.
EU = {code.upper() for code in MEMBER_STATES} - {"XI"}


@pytest.mark.parametrize("country", sorted(EU))
def test_112_calls_an_ambulance_in_every_member_state(country: str) -> None:
    assert "112" in emergency_numbers(country)


def test_great_britain_dials_999_first_and_112_too() -> None:
    """Ofcom General Conditions, from memory."""
    assert emergency_numbers("gb") == ("999", "112")


def test_no_number_is_guessed_for_a_country_that_the_table_does_not_know() -> None:
    known = {land.alpha_2 for land in pycountry.countries if emergency_numbers(land.alpha_2)}
    assert known == EU | {"GB"}
