"""F-numbers as a hand-held meter shows them: a full-stop mark and tenths of a stop.

References
----------
ISO 517:2008 for the marks; tenths as hand-held meters show them, common practice.
"""

import math
import re
from dataclasses import dataclass

from shoots.lighting.core.scales import Mark
from shoots.values.steps import Step
from shoots.values.units import Range

METERED = Range(0.5, 175.0, "1")


@dataclass(frozen=True, slots=True)
class MeterReading:
    """An f-number as a hand-held meter shows it: a full-stop mark and tenths of a stop.

    Attributes
    ----------
    mark : str
        Full-stop mark, "5.6".
    tenths : int
        0 to 9 tenths of a stop above the mark.
    f_number : float
        The exact f-number. [1]
    other_f_number : float or None
        What the same text would mean read the other way ("2.8" as f/2 and eight tenths); None when it has one
        meaning only. [1]
    """

    mark: str
    tenths: int
    f_number: float
    other_f_number: float | None = None


@dataclass(frozen=True, slots=True)
class Reading:
    """What a meter would show, and how it lies to the chosen exposure.

    Attributes
    ----------
    f_number : float
        Exact, at the chosen ISO and time. [1]
    nominal : Mark
        On the third-stop scale.
    metered : MeterReading or None
        As a meter shows it, mark and tenths; None beyond any meter.
    stops : float
        Against the chosen settings with their filters, positive for more light. [stop]
    spread_stops : float
        How far it may lie off, to either side. [stop]
    because : tuple[Step, ...]
        How it came about.
    """

    f_number: float
    nominal: Mark
    metered: MeterReading | None
    stops: float
    spread_stops: float
    because: tuple[Step, ...]


class NoMeterReading(ValueError):
    """Raised when a text cannot be an f-number of a meter."""


_FULL_MARKS = (
    "0.5",
    "0.7",
    "1.0",
    "1.4",
    "2.0",
    "2.8",
    "4.0",
    "5.6",
    "8.0",
    "11",
    "16",
    "22",
    "32",
    "45",
    "64",
    "90",
    "128",
)
_FIRST_AV = -2
_SUPERSCRIPTS = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "01234567890123456789")
_READING = re.compile(r"(?:f\s*/?\s*)?(?P<number>\d+(?:\.\d+)?)(?:[\s.+_]*(?P<tenths>\d))?", re.IGNORECASE)


def read_meter(text: str) -> MeterReading:
    """Return what a photographer noted from a meter: "11.3" is f/11 and three tenths.

    Parameters
    ----------
    text : str
        A full-stop mark with an optional tenth: "8", "8.3", "11.3", "f/11 3", "5.6", "5.6 3", "5.63", "11³".

    Returns
    -------
    MeterReading
        A text that is itself a full-stop mark ("1.4", "2.8") means that mark; the other meaning is kept
        beside it.

    Raises
    ------
    NoMeterReading
        If it is no full-stop mark with an optional tenth.

    References
    ----------
    ISO 517:2008 for the marks; tenths as hand-held meters show them, common practice.

    Examples
    --------
    >>> read_meter("11.3").mark, read_meter("11.3").tenths, round(read_meter("11.3").f_number, 2)
    ('11', 3, 12.55)
    """
    # A raised or lowered digit is always the tenth, so it is set apart before it becomes a plain digit.
    plain = re.sub(r"([⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉])", r" \1", text.strip()).translate(_SUPERSCRIPTS).replace(",", ".")
    match = _READING.fullmatch(plain)
    if match is None:
        raise NoMeterReading(text)
    number, tenths = match["number"], match["tenths"]
    if tenths is not None:
        meanings = [(number, int(tenths))]
    elif "." in number:
        # "5.63" is f/5.6 and three tenths, "11.3" f/11 and three; "2.8" is a mark before it is f/2 and eight.
        whole, _, fraction = number.partition(".")
        cut = (whole, int(fraction)) if len(fraction) == 1 else (number[:-1], int(number[-1]))
        meanings = [(number, 0), cut]
    else:
        meanings = [(number, 0)]
    found: list[tuple[int, int]] = []
    for candidate, tenth in meanings:
        index = _mark_index(candidate)
        if index is not None and (index, tenth) not in found:
            found.append((index, tenth))
    if not found:
        raise NoMeterReading(text)
    values = [2.0 ** ((_FIRST_AV + index + tenth / 10.0) / 2.0) for index, tenth in found]
    index, tenth = found[0]
    return MeterReading(_FULL_MARKS[index], tenth, values[0], values[1] if len(values) > 1 else None)


def _mark_index(text: str) -> int | None:
    """Return the place of a full-stop mark, "4" and "4.0" alike, or None."""
    for index, mark in enumerate(_FULL_MARKS):
        if text == mark or (mark.endswith(".0") and text == mark[:-2]):
            return index
    return None


def meter_reading(f_number: float) -> MeterReading:
    """Return an f-number as a meter would show it, to the nearest tenth of a stop.

    Parameters
    ----------
    f_number : float
        Exact f-number, 0.5 to 175. [1]

    Returns
    -------
    MeterReading
        ``f_number`` in it is the given one, not the rounded one.

    Raises
    ------
    OutOfRange
        If ``f_number`` is outside 0.5 to 175.

    References
    ----------
    ISO 517:2008 for the marks; tenths as hand-held meters show them, common practice.

    Examples
    --------
    >>> reading = meter_reading(22.5)
    >>> reading.mark, reading.tenths
    ('22', 0)
    """
    METERED.check("f_number", f_number)
    tenths = round(20.0 * math.log2(f_number)) - 10 * _FIRST_AV
    index = min(max(tenths, 0) // 10, len(_FULL_MARKS) - 1)
    return MeterReading(_FULL_MARKS[index], max(tenths, 0) - 10 * index, f_number)
