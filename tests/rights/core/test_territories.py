"""Countries and groups.

References outside: ISO 3166-1 by pycountry; the EU's members by python-stdnum's list of VAT countries; the
continent of each country by the zone table of the IANA time zone database (package tzdata).
"""

from importlib import resources

import pycountry
import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum.eu.vat import MEMBER_STATES

from shoots.brief.core.placements import Placement
from shoots.brief.core.territories import GROUPS as BRIEF_GROUPS
from shoots.rights.core.terms import Medium
from shoots.rights.core.territories import (
    GROUPS,
    Territory,
    TerritoryGroup,
    TerritoryNotPossible,
    UnknownCountry,
    check_country,
    territory,
    territory_of,
    world,
)

COUNTRIES = st.sampled_from(sorted(country.alpha_2 for country in pycountry.countries))
SETS = st.frozensets(COUNTRIES, min_size=1, max_size=12)


def continents():
    """Country code -> continents of its time zones, from zone.tab."""
    table = (resources.files("tzdata") / "zoneinfo" / "zone.tab").read_text(encoding="utf-8")
    found = {}
    for line in table.splitlines():
        if line and not line.startswith("#"):
            code, _, zone = line.split("\t")[:3]
            found.setdefault(code, set()).add(zone.split("/")[0])
    return found


@pytest.mark.parametrize("group", TerritoryGroup)
def test_every_group_is_spelled_out_in_iso_codes(group):
    assert GROUPS[group]
    assert {check_country(code) for code in GROUPS[group]} == GROUPS[group]


def test_the_eu_has_the_members_that_give_vat_numbers():
    # XI (Northern Ireland) gives EU VAT numbers for goods without being a member.
    members = {code.upper() for code in MEMBER_STATES} - {"XI"}
    assert members == GROUPS[TerritoryGroup.EU]
    assert len(members) == 27


def test_the_eea_is_the_eu_and_three_more():
    assert GROUPS[TerritoryGroup.EEA] - GROUPS[TerritoryGroup.EU] == {"IS", "LI", "NO"}


def test_emea_holds_every_country_with_a_clock_in_europe_or_africa():
    # Territories under their own ISO code (Gibraltar, the Channel Islands...) are left out on purpose.
    apart = {"AX", "EH", "GG", "GI", "IM", "JE", "SJ"}
    wanted = {code for code, zones in continents().items() if zones & {"Europe", "Africa"} and code not in apart}
    assert len(wanted) > 90
    assert wanted <= GROUPS[TerritoryGroup.EMEA]


def test_emea_holds_nothing_with_a_clock_in_america_or_the_pacific_alone():
    zones = continents()
    for code in GROUPS[TerritoryGroup.EMEA]:
        assert zones[code] & {"Europe", "Africa", "Asia", "Indian", "Atlantic"}, code


@pytest.mark.parametrize("code", ["UK", "gb", "EU", "", "GBR", "XX"])
def test_what_is_no_country_is_refused(code):
    with pytest.raises(UnknownCountry):
        check_country(code)
    with pytest.raises(UnknownCountry):
        territory([code])
    with pytest.raises(UnknownCountry):
        world(excluded=[code])
    with pytest.raises(UnknownCountry):
        world().covers(code)


def test_a_group_is_kept_as_the_countries_it_stood_for():
    nordics = territory(["GB"], groups=[TerritoryGroup.NORDICS])
    assert nordics.countries == {"DK", "FI", "GB", "IS", "NO", "SE"}
    assert nordics.named_apart == {"GB"}


@given(SETS, st.data())
def test_a_territory_covers_what_it_names_and_does_not_leave_out(countries, data):
    left_out = data.draw(st.frozensets(st.sampled_from(sorted(countries)), max_size=len(countries) - 1))
    country = data.draw(COUNTRIES)
    place = territory(countries, excluded=left_out)
    assert place.covers(country) == (country in countries and country not in left_out)
    assert world(excluded=left_out).covers(country) == (country not in left_out)
    assert not place.covers(None)


def test_only_the_whole_world_covers_everywhere():
    assert world().covers(None)
    assert not world(excluded=["US"]).covers(None)


@given(SETS, SETS)
def test_two_territories_overlap_when_a_country_is_in_both(first, second):
    one, other = territory(first), territory(second)
    assert one.overlaps(other) == other.overlaps(one) == bool(first & second)
    assert world().overlaps(one) and one.overlaps(world())
    assert world(excluded=first).overlaps(one) is False and one.overlaps(world(excluded=first)) is False
    assert world(excluded=first).overlaps(world(excluded=second))


@pytest.mark.parametrize(
    "make",
    [
        lambda: territory([]),
        lambda: territory(["GB"], excluded=["GB"]),
        lambda: territory(["GB"], excluded=["FR"]),
        lambda: Territory(frozenset({"GB"}), is_world=True),
    ],
)
def test_a_territory_that_says_nothing_is_refused(make):
    with pytest.raises(TerritoryNotPossible):
        make()


@pytest.mark.parametrize(
    ("entries", "expected"),
    [
        (["GB"], territory(["GB"])),
        (["UK_IRELAND", "FR"], territory(["FR"], groups=[TerritoryGroup.UK_IRELAND])),
        (["EU", "-FR"], territory(groups=[TerritoryGroup.EU], excluded=["FR"])),
        (["EMEA", "-DACH"], territory(groups=[TerritoryGroup.EMEA], excluded=["AT", "CH", "DE"])),
        (["world"], world()),
        (["GB", "world", "-US"], world(excluded=["US"])),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else "territory",
)
def test_a_list_of_codes_is_a_territory(entries, expected):
    assert territory_of(entries) == expected


@pytest.mark.parametrize("entry", ["", "-", "uk", "WORLD", "-world", "--US", "nordics"])
def test_an_entry_that_is_no_code_is_refused(entry):
    with pytest.raises(UnknownCountry):
        territory_of(["GB", entry])


@pytest.mark.parametrize("entries", [[], ["-US"], ["GB", "-US"], ["GB", "-GB"]], ids=str)
def test_a_list_that_leaves_nothing_or_nothing_to_leave_out_is_refused(entries):
    with pytest.raises(TerritoryNotPossible):
        territory_of(entries)


def test_the_brief_speaks_of_the_same_groups_and_media():
    assert set(BRIEF_GROUPS) == {str(group) for group in TerritoryGroup}
    assert {str(placement) for placement in Placement} == {str(medium) for medium in Medium}
