"""A position as people read it aloud.

References
----------
.. [1] ISO 6709:2008, Annex D: degrees, minutes and seconds for human readers, latitude first.
"""

from __future__ import annotations


class PositionNotPossible(ValueError):
    """Raised when a latitude or longitude lies outside the globe."""


def _part(angle_deg: float, width: int, letters: str) -> str:
    tenths = round(abs(angle_deg) * 36_000)
    degrees, rest = divmod(tenths, 36_000)
    minutes, seconds = divmod(rest, 600)
    return f"{degrees:0{width}}°{minutes:02}′{seconds / 10:04.1f}″{letters[angle_deg < 0]}"


def position_text(latitude_deg: float, longitude_deg: float) -> str:
    """Return a position in degrees, minutes and seconds.

    Parameters
    ----------
    latitude_deg : float
        North positive, -90 to 90. [°]
    longitude_deg : float
        East positive, -180 to 180. [°]

    Returns
    -------
    str
        To a tenth of a second, about 3 m.

    Raises
    ------
    PositionNotPossible
        If either lies outside its range.

    References
    ----------
    ISO 6709:2008, Annex D.

    Examples
    --------
    >>> position_text(53.3312, -1.6294)
    '53°19′52.3″N 001°37′45.8″W'
    """
    if not (-90 <= latitude_deg <= 90 and -180 <= longitude_deg <= 180):
        raise PositionNotPossible(f"{latitude_deg}, {longitude_deg}")
    return f"{_part(latitude_deg, 2, 'NS')} {_part(longitude_deg, 3, 'EW')}"
