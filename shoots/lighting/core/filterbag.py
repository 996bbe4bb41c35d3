"""Which neutral filters can go on the lens together.

References
----------
Filters in a row add in stops; combinations of what is in the bag, own arrangement.
"""

import itertools
import math
from collections.abc import Sequence

from shoots.kit.core.cameras import FilterSpec
from shoots.values.units import Range

MORE = Range(0.0, 30.0, "stop")
COUNT = Range(0.0, 8.0, "1")


def filter_choices(bag: Sequence[FilterSpec], more: Sequence[float] = ()) -> tuple[tuple[float, ...], ...]:
    """Return what can be put on the lens, least effort first.

    Parameters
    ----------
    bag : Sequence[FilterSpec]
        Filters that are there, each once, at most 8.
    more : Sequence[float]
        Filters that are not there and might be tried, one at a time and alone. [stop]

    Returns
    -------
    tuple[tuple[float, ...], ...]
        None first, then one filter, weakest first, then two and so on, at last what is not in the bag. [stop]

    Raises
    ------
    OutOfRange
        If there are more than 8 filters, or one of them adds light.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> filter_choices([FilterSpec(6.0), FilterSpec(3.0)])
    ((), (3.0,), (6.0,), (3.0, 6.0))
    """
    COUNT.check("number of filters", len(bag))
    stops = sorted(one.stops for one in bag if one.stops > 0.0)
    found: list[tuple[float, ...]] = []
    for count in range(len(stops) + 1):
        group = sorted(set(itertools.combinations(stops, count)), key=lambda one: (math.fsum(one), one))
        found.extend(group)
    for one in sorted(more):
        MORE.check("more", one)
        if (one,) not in found and one > 0.0:
            found.append((one,))
    return tuple(found)
