"""Where pictures may be used: countries, named groups spelled out, the world, and what is left out.

A licence names its countries one by one, also where people say "the Nordics", because groups mean
different things to different people and change over the years. A territory therefore keeps the countries
that a name stood for on the day it was written.

References
----------
.. [1] ISO 3166-1 alpha-2, by pycountry.
.. [2] EU: the 27 member states since 1 February 2020. EEA: these with Iceland, Liechtenstein and Norway.
.. [3] UK and Ireland, DACH, Benelux, Nordics (the five states, without Åland, the Faroes and Greenland):
   common usage, no source.
.. [4] EMEA: common usage, no source; here the geographical Europe, Western Asia with Iran, and Africa of
   the UN's M49 list (from memory), territories under their own ISO code left out.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

import pycountry


class TerritoryGroup(StrEnum):
    """Names that people use for several countries."""

    UK_IRELAND = "UK_IRELAND"
    DACH = "DACH"
    BENELUX = "BENELUX"
    NORDICS = "NORDICS"
    EU = "EU"
    EEA = "EEA"
    EMEA = "EMEA"


def _codes(text: str) -> frozenset[str]:
    return frozenset(text.split())


_EU = _codes("AT BE BG CY CZ DE DK EE ES FI FR GR HR HU IE IT LT LU LV MT NL PL PT RO SE SI SK")
_EEA = _EU | _codes("IS LI NO")
_OTHER_EUROPE = _codes("AD AL BA BY CH GB MC MD ME MK RS RU SM UA VA")
_MIDDLE_EAST = _codes("AE AM AZ BH GE IL IQ IR JO KW LB OM PS QA SA SY TR YE")
_AFRICA = _codes(
    "AO BF BI BJ BW CD CF CG CI CM CV DJ DZ EG ER ET GA GH GM GN GQ GW KE KM LR LS LY MA MG ML MR MU MW MZ"
    " NA NE NG RW SC SD SL SN SO SS ST SZ TD TG TN TZ UG ZA ZM ZW"
)

GROUPS: dict[TerritoryGroup, frozenset[str]] = {
    TerritoryGroup.UK_IRELAND: _codes("GB IE"),
    TerritoryGroup.DACH: _codes("AT CH DE"),
    TerritoryGroup.BENELUX: _codes("BE LU NL"),
    TerritoryGroup.NORDICS: _codes("DK FI IS NO SE"),
    TerritoryGroup.EU: _EU,
    TerritoryGroup.EEA: _EEA,
    TerritoryGroup.EMEA: _EEA | _OTHER_EUROPE | _MIDDLE_EAST | _AFRICA,
}
"""Countries that each name stands for today [2][3][4]."""


class UnknownCountry(ValueError):
    """Raised when a code is no country of ISO 3166-1."""


class TerritoryNotPossible(ValueError):
    """Raised when a territory is empty, or leaves out what it does not hold."""


def check_country(code: str) -> str:
    """Return the country code if ISO 3166-1 has it.

    Parameters
    ----------
    code : str
        Two capital letters.

    Returns
    -------
    str
        The same code.

    Raises
    ------
    UnknownCountry
        If it is no country code; ``UK`` is none, ``GB`` is.

    Examples
    --------
    >>> check_country("GB")
    'GB'
    """
    known = pycountry.countries.get(alpha_2=code)
    if known is None or known.alpha_2 != code:
        raise UnknownCountry(code)
    return code


@dataclass(frozen=True, slots=True)
class Territory:
    """Countries in which a use is allowed; made by ``territory`` or ``world``.

    Parameters
    ----------
    countries : frozenset[str]
        ISO 3166-1 codes, all of them, also those that a group's name stands for; empty for the world.
    is_world : bool
        Whether every country is meant.
    excluded : frozenset[str]
        Countries left out.
    groups : frozenset[TerritoryGroup]
        Names to print; they change nothing.

    Raises
    ------
    UnknownCountry
        If a code is no country.
    TerritoryNotPossible
        If nothing is left, or something is left out that was not in it.
    """

    countries: frozenset[str] = frozenset()
    is_world: bool = False
    excluded: frozenset[str] = frozenset()
    groups: frozenset[TerritoryGroup] = frozenset()

    def __post_init__(self) -> None:
        for code in self.countries | self.excluded:
            check_country(code)
        if self.is_world:
            if self.countries or self.groups:
                raise TerritoryNotPossible("The world needs no list of countries.")
        elif not self.countries - self.excluded:
            raise TerritoryNotPossible("A territory has some country.")
        elif self.excluded - self.countries:
            raise TerritoryNotPossible("Only what is in a territory can be left out.")

    @property
    def allowed(self) -> frozenset[str] | None:
        """The countries that are left, or None for the world."""
        return None if self.is_world else self.countries - self.excluded

    @property
    def named_apart(self) -> frozenset[str]:
        """Countries that no printed group stands for."""
        named: frozenset[str] = frozenset().union(*(GROUPS[group] for group in self.groups))
        return self.countries - named

    def covers(self, country: str | None) -> bool:
        """Return whether a use in the country is inside; None asks for use everywhere."""
        if country is None:
            return self.is_world and not self.excluded
        if check_country(country) in self.excluded:
            return False
        return self.is_world or country in self.countries

    def overlaps(self, other: Territory) -> bool:
        """Return whether the two have a country in common."""
        mine, theirs = self.allowed, other.allowed
        if mine is None:
            return theirs is None or bool(theirs - self.excluded)
        return bool(mine - other.excluded) if theirs is None else bool(mine & theirs)


def territory(
    countries: Iterable[str] = (),
    *,
    groups: Iterable[TerritoryGroup] = (),
    excluded: Iterable[str] = (),
) -> Territory:
    """Return the territory of some countries and groups, with the groups spelled out.

    Parameters
    ----------
    countries : Iterable[str]
        ISO 3166-1 codes.
    groups : Iterable[TerritoryGroup]
        Names that stand for several countries.
    excluded : Iterable[str]
        Countries left out.

    Returns
    -------
    Territory
        Every country by its code; a later change of a group's members does not touch it.

    Raises
    ------
    UnknownCountry
        If a code is no country.
    TerritoryNotPossible
        If nothing is left, or something is left out that was not in it.

    Examples
    --------
    >>> alps = territory(["FR"], groups=[TerritoryGroup.DACH], excluded=["CH"])
    >>> alps.covers("AT"), alps.covers("CH"), sorted(alps.allowed)
    (True, False, ['AT', 'DE', 'FR'])
    """
    named = frozenset(groups)
    spelled_out = frozenset(countries).union(*(GROUPS[group] for group in named))
    return Territory(spelled_out, excluded=frozenset(excluded), groups=named)


def world(*, excluded: Iterable[str] = ()) -> Territory:
    """Return the whole world, with countries left out if need be.

    Parameters
    ----------
    excluded : Iterable[str]
        ISO 3166-1 codes of countries left out.

    Returns
    -------
    Territory
        Every country but those.

    Raises
    ------
    UnknownCountry
        If a code is no country.

    Examples
    --------
    >>> world(excluded=["US"]).covers("GB"), world(excluded=["US"]).covers(None)
    (True, False)
    """
    return Territory(is_world=True, excluded=frozenset(excluded))


def territory_of(entries: Iterable[str]) -> Territory:
    """Return the territory that a list of codes stands for.

    Parameters
    ----------
    entries : Iterable[str]
        Country codes, codes of ``TerritoryGroup``, ``world``, each with a minus where it is left out.

    Returns
    -------
    Territory
        Groups spelled out; beside ``world`` other entries say nothing more.

    Raises
    ------
    UnknownCountry
        If an entry is no country, group or world.
    TerritoryNotPossible
        If nothing is left, or something is left out that was not in it.

    Examples
    --------
    >>> sorted(territory_of(["DACH", "FR", "-CH"]).allowed)
    ['AT', 'DE', 'FR']
    >>> territory_of(["world", "-US"]).covers("US")
    False
    """
    countries: set[str] = set()
    groups: set[TerritoryGroup] = set()
    excluded: set[str] = set()
    is_world = False
    for entry in entries:
        code = entry.removeprefix("-")
        is_left_out = code != entry
        if code in TerritoryGroup.__members__:
            group = TerritoryGroup[code]
            if is_left_out:
                excluded |= GROUPS[group]
            else:
                groups.add(group)
        elif code == "world" and not is_left_out:
            is_world = True
        elif is_left_out:
            excluded.add(code)
        else:
            countries.add(check_country(code))
    if is_world:
        return world(excluded=excluded)
    return territory(countries, groups=groups, excluded=excluded)
