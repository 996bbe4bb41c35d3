"""How long it takes to get from one setup of a shoot to another, where their lights are known."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import permutations

from shoots.lighting.core.ambient import DARK
from shoots.lighting.core.changeover import change_over
from shoots.lighting.core.setup import Setup as CoreSetup
from shoots.lighting.models import Setup
from shoots.lighting.queries.rows import core_setup, is_known, lettered
from shoots.values.units import OutOfRange

MOST_SETUPS = 40
"""Between more setups than these the general minutes stand: nobody waits for a thousand pairs."""


def minutes_between(setups: Iterable[Setup]) -> dict[tuple[str, str], int]:
    """Return whole minutes from each setup to each other, by their keys, an estimate for one person. No query.

    The setups come from `lighting.queries.pages.setups_to_show`. One without lights, with a light that the bag doesn't
    know or at an impossible place has no minutes.
    """
    known: dict[str, CoreSetup] = {}
    for setup in list(setups)[:MOST_SETUPS]:
        lamps = lettered(list(setup.lamps.all()))
        if not lamps or not all(is_known(placed.lamp) for _letter, placed in lamps):
            continue
        try:
            known[str(setup.pk)] = core_setup(setup, lamps, DARK)
        except OutOfRange:
            continue
    return {
        (one, other): math.ceil(change_over(known[one], known[other]).minutes) for one, other in permutations(known, 2)
    }
