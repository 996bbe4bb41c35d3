"""Panels as they are drawn and as the camera sees them: their outlines from above and from the side, and what holds
them.

Drawing coordinates are those of `shoots.lighting.core.plan`, in metres.

References
----------
Geometry; how things are held is common practice, no source.
"""

import math
from dataclasses import dataclass

from shoots.kit.core.panels import PanelKind
from shoots.lighting.core.blocking import panel_normal, panel_outline
from shoots.lighting.core.panels import PlacedPanel, Vector, sides, turn_and_tilt
from shoots.lighting.core.setup import Setup
from shoots.lighting.core.shadows import Plane

LYING_DEG = 45.0
"""What is tilted further than this lies rather than stands, and is held at both ends. [°]"""


@dataclass(frozen=True, slots=True)
class Point:
    """A point of the drawing.

    Attributes
    ----------
    x, y : float
        To the right and down the paper. [m]
    """

    x: float
    y: float


@dataclass(frozen=True, slots=True)
class DrawnPanel:
    """A reflector, board, flag or scrim on the plan or in the section.

    Attributes
    ----------
    letter : str
        Written beside it.
    kind : PanelKind
        How it is drawn.
    at : Point
        Its middle.
    outline : tuple[Point, ...]
        Its corners, to scale as it is turned; all on one line for one that is seen on edge.
    feet : tuple[Point, ...]
        Where its stands meet the floor, each below what it holds; none when somebody holds it.
    tops : tuple[Point, ...]
        What each stand holds.
    floor_m, height_m : float
        The numbers to type. [m]
    bearing_deg : float
        The number to type. [°]
    turn_deg, tilt_deg : float
        Which way it faces, as typed or as it turns by itself. [°]
    """

    letter: str
    kind: PanelKind
    at: Point
    outline: tuple[Point, ...]
    feet: tuple[Point, ...]
    tops: tuple[Point, ...]
    floor_m: float
    height_m: float
    bearing_deg: float
    turn_deg: float
    tilt_deg: float


def held_at(setup: Setup, panel: PlacedPanel) -> tuple[Vector, ...]:
    """Return the points at which stands hold a panel.

    Parameters
    ----------
    setup : Setup
        The setup.
    panel : PlacedPanel
        One of its panels.

    Returns
    -------
    tuple[tuple[float, float, float], ...]
        Its middle; both ends of its width for one that lies overhead; none without a stand. [m]

    References
    ----------
    Common practice, no source.
    """
    if panel.stand is None:
        return ()
    normal = panel_normal(setup, panel)
    if abs(turn_and_tilt(normal)[1]) <= LYING_DEG:
        return (panel.position,)
    across, half = sides(normal)[0], panel.front.width_m / 2.0
    x, y, z = panel.position
    return tuple((x + sign * half * across[0], y + sign * half * across[1], z) for sign in (-1.0, 1.0))


def _from_above(point: Vector) -> Point:
    return Point(point[0], -point[1])


def _from_side(point: Vector) -> Point:
    return Point(-point[1], -point[2])


def drawn_panel(setup: Setup, panel: PlacedPanel, *, from_side: bool = False) -> DrawnPanel:
    """Return a panel as it is drawn.

    Parameters
    ----------
    setup : Setup
        The setup.
    panel : PlacedPanel
        One of its panels.
    from_side : bool
        Whether it is seen from the camera's left side and not from above.

    Returns
    -------
    DrawnPanel
        To scale.

    References
    ----------
    Geometry.
    """
    turn, tilt = turn_and_tilt(panel_normal(setup, panel))
    seen = _from_side if from_side else _from_above
    tops = held_at(setup, panel)
    return DrawnPanel(
        letter=panel.letter,
        kind=panel.panel.kind,
        at=seen(panel.position),
        outline=tuple(seen(corner) for corner in panel_outline(setup, panel)),
        feet=tuple(seen((x, y, 0.0)) for x, y, _ in tops),
        tops=tuple(seen(top) for top in tops),
        floor_m=panel.floor_m,
        height_m=panel.height_m,
        bearing_deg=panel.bearing_deg,
        turn_deg=turn,
        tilt_deg=tilt,
    )


def seen_planes(lens: Vector, horizontal_deg: float, vertical_deg: float, tilt_deg: float) -> tuple[Plane, ...]:
    """Return the planes that bound what a camera sees, for `shoots.lighting.core.shadows.clipped`.

    Parameters
    ----------
    lens : tuple[float, float, float]
        The lens. [m]
    horizontal_deg, vertical_deg : float
        Full fields of view, 0 to 180. [°]
    tilt_deg : float
        Positive looks up. [°]

    Returns
    -------
    tuple[tuple[tuple[float, float, float], float], ...]
        Five normals [1], inward, each with its least product [m]; nearer than 5 cm nothing counts.

    References
    ----------
    Geometry of a rectilinear lens.
    """
    tilt = math.radians(tilt_deg)
    ahead, up = (0.0, math.cos(tilt), math.sin(tilt)), (0.0, -math.sin(tilt), math.cos(tilt))
    wide, high = (math.tan(math.radians(one / 2.0)) for one in (horizontal_deg, vertical_deg))
    normals = [
        *((sign, wide * ahead[1], wide * ahead[2]) for sign in (-1.0, 1.0)),
        *((0.0, high * ahead[1] + sign * up[1], high * ahead[2] + sign * up[2]) for sign in (-1.0, 1.0)),
    ]
    planes = [(normal, math.fsum(a * b for a, b in zip(normal, lens, strict=True))) for normal in normals]
    near = math.fsum(a * b for a, b in zip(ahead, lens, strict=True)) + 0.05
    return (*planes, (ahead, near))
