"""Lists to choose from: countries, currencies and time zones, by their English names."""

from __future__ import annotations

import functools
from zoneinfo import available_timezones

from babel import Locale

Choices = list[tuple[str, str]]
Groups = list[tuple[str, Choices]]
LOCALE = "en_GB"


@functools.cache
def countries() -> Choices:
    """Return ISO 3166 codes with names, in the order of the names. Names from CLDR."""
    import pycountry

    names = Locale.parse(LOCALE).territories
    found = [(land.alpha_2, str(names.get(land.alpha_2, land.name))) for land in pycountry.countries]
    return sorted(found, key=lambda pair: pair[1])


@functools.cache
def currencies() -> Choices:
    """Return the ISO 4217 codes that CLDR knows a use for today, with names."""
    from babel.numbers import get_territory_currencies

    in_use = {code for land, _ in countries() for code in get_territory_currencies(land)}
    names = Locale.parse(LOCALE).currencies
    return sorted((code, f"{code} · {names.get(code, code)}") for code in in_use)


@functools.cache
def time_zones() -> Groups:
    """Return IANA time zones, grouped by the part of the world that their names begin with."""
    groups: dict[str, Choices] = {}
    for name in sorted(available_timezones()):
        region, _, town = name.partition("/")
        if town and region not in {"Etc", "SystemV", "US", "posix", "right"}:
            groups.setdefault(region, []).append((name, town.replace("_", " ").replace("/", " – ")))
    return [*groups.items(), ("UTC", [("UTC", "UTC")])]
