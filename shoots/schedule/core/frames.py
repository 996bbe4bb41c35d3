"""How many frames each shot of a setup is planned to take.

References
----------
Own arrangement: no frame that was planned gets lost, because what is left out would be missing in the batteries.
"""

import math
from collections.abc import Sequence

from shoots.values.units import Range

FRAMES = Range(0.0, 1e6, "1")


def frames_of_shots(of_setup: int | None, of_shots: Sequence[int | None]) -> tuple[float | None, ...]:
    """Return the planned frames of each shot of a setup.

    Parameters
    ----------
    of_setup : int or None
        What the setup plans for all of its shots together; None where it says nothing.
    of_shots : Sequence[int or None]
        What each shot plans by itself; None where it says nothing.

    Returns
    -------
    tuple[float or None, ...]
        A shot's own number; what the setup plans beyond those goes in even parts to the shots that say nothing,
        to all of them where every one says something. None where neither says anything. [1]

    Raises
    ------
    OutOfRange
        If a number is negative or above a million.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> frames_of_shots(180, [60, None, None])
    (60.0, 60.0, 60.0)
    >>> frames_of_shots(None, [60, None])
    (60.0, None)
    """
    for number in (of_setup, *of_shots):
        if number is not None:
            FRAMES.check("frames", float(number))
    said = math.fsum(number for number in of_shots if number is not None)
    silent = sum(number is None for number in of_shots)
    if of_setup is None:
        return tuple(None if number is None else float(number) for number in of_shots)
    rest = max(0.0, of_setup - said)
    if silent:
        return tuple(rest / silent if number is None else float(number) for number in of_shots)
    return tuple(float(number or 0) + rest / len(of_shots) for number in of_shots)
