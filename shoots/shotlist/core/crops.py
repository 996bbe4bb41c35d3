"""How much of a frame is left when a shape is cut from it.

References
----------
A frame of 36 mm by 24 mm: ISO 1007 (135 film), which the sensors of most cameras keep. The rest is arithmetic.
"""

from shoots.brief.core.shapes import aspect

FRAME = 36.0 / 24.0
"""Width over height of a camera's frame, held level. [1]"""


def kept(shape: str, orientation: str) -> float:
    """Return the share of the frame that the largest cut of a shape keeps.

    Parameters
    ----------
    shape : str
        As "4:5".
    orientation : str
        "LANDSCAPE" or "UPRIGHT"; anything else takes the way that keeps more.

    Returns
    -------
    float
        Share of the frame's area, 1 for all of it. [1]

    Raises
    ------
    UnknownShape
        If it is no shape.

    References
    ----------
    Own derivation: the largest rectangle of one proportion inside another touches two of its sides.

    Examples
    --------
    >>> round(kept("9:16", "LANDSCAPE"), 3), round(kept("4:5", "UPRIGHT"), 3)
    (0.375, 0.833)
    """
    wide = aspect(shape)
    frames = {"LANDSCAPE": (FRAME,), "UPRIGHT": (1.0 / FRAME,)}.get(orientation, (FRAME, 1.0 / FRAME))
    return max(min(wide, frame) / max(wide, frame) for frame in frames)
