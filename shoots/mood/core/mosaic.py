"""Pictures of different shapes laid into a field in rows of one height each, none of them cropped.

References
----------
Own arrangement.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

TRIED_IN_FULL = 10
"""Up to so many pictures every way to break them into rows is tried."""
UNEVEN_TO = 2.2
"""The highest row may be so many times as high as the lowest. [1]"""


@dataclass(frozen=True, slots=True)
class Tile:
    """Where a picture lies in its field, in the field's own unit, from the upper left corner.

    Attributes
    ----------
    x, y : float
        Its upper left corner. [1]
    width, height : float
        Its size. [1]
    """

    x: float
    y: float
    width: float
    height: float

    @property
    def bottom(self) -> float:
        """Where it ends below. [1]"""
        return self.y + self.height


def justified(ratios: Sequence[float], *, width: float, height: float, gap: float) -> list[Tile]:
    """Return where each picture lies, in their order, so that they fill the field as well as they can.

    Parameters
    ----------
    ratios : sequence of float
        Width over height of each picture, greater than 0. [1]
    width, height : float
        Size of the field, greater than 0. [1]
    gap : float
        Between two pictures. [1]

    Returns
    -------
    list[Tile]
        As many as ratios. No picture is cropped or leaves the field; every row of full width is as wide as the
        others.

    References
    ----------
    Own arrangement.

    Notes
    -----
    Of up to ten pictures every way to break them into rows is tried, of more only even ones; the one whose pictures
    cover most of the field is taken, among those whose rows don't differ too much in height. Rows that together are
    too high are all made smaller by the same factor.

    Examples
    --------
    >>> [round(tile.x) for tile in justified([1.0, 1.0], width=210.0, height=100.0, gap=10.0)]
    [0, 110]
    """
    best: list[Tile] = []
    most = -1.0
    for rows in _ways(list(ratios)):
        heights = [(width - gap * (len(row) - 1)) / sum(row) for row in rows]
        tiles = _laid(rows, heights, height, gap)
        area = sum(tile.width * tile.height for tile in tiles) / (width * height)
        if max(heights) > UNEVEN_TO * min(heights):
            area -= 1.0  # only where nothing better is to be had
        if area > most + 1e-4:
            best, most = tiles, area
    return best


def _ways(ratios: list[float]) -> Iterator[list[list[float]]]:
    """Yield ways to break a line of pictures into rows."""
    if not ratios:
        return
    if len(ratios) <= TRIED_IN_FULL:
        for breaks in range(1 << (len(ratios) - 1)):
            rows = [[ratios[0]]]
            for n, ratio in enumerate(ratios[1:]):
                if breaks >> n & 1:
                    rows.append([])
                rows[-1].append(ratio)
            yield rows
        return
    for count in range(1, len(ratios) + 1):
        yield _even_rows(ratios, count)


def _even_rows(ratios: Sequence[float], count: int) -> list[list[float]]:
    rows: list[list[float]] = []
    rest = list(ratios)
    for left in range(count, 0, -1):
        # Each row takes what comes closest to its even share of what is left, and leaves one for every later row.
        share, row = sum(rest) / left, [rest.pop(0)]
        while len(rest) > left - 1 and (left == 1 or abs(sum(row) + rest[0] - share) <= abs(sum(row) - share)):
            row.append(rest.pop(0))
        rows.append(row)
    return rows


def _laid(rows: Sequence[Sequence[float]], heights: Sequence[float], height: float, gap: float) -> list[Tile]:
    shrink = min(1.0, (height - gap * (len(rows) - 1)) / sum(heights))
    tiles, y = [], 0.0
    for row, full in zip(rows, heights, strict=True):
        row_height = full * shrink
        x = 0.0
        for ratio in row:
            tiles.append(Tile(round(x, 2), round(y, 2), round(ratio * row_height, 2), round(row_height, 2)))
            x += ratio * row_height + gap
        y += row_height + gap
    return tiles
