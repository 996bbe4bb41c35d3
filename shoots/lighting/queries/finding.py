"""The search for settings as a page shows it: present settings against the best ones, each wish with its margin."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from shoots.kit.core.lamps import LampKind, LayerKind
from shoots.kit.models import Filter, FilterKind
from shoots.lighting import models
from shoots.lighting.core.burst import high_speed_sync_stops
from shoots.lighting.core.mends import Mend, MendKind, mends
from shoots.lighting.core.readings import SetupReading, evaluate
from shoots.lighting.core.setup import Setup
from shoots.lighting.core.solver import NoTimeSyncs, outcomes, solve
from shoots.lighting.core.wishes import Outcome, Problem, Solution, Wish
from shoots.lighting.queries.gauges import GAUGE_STOPS, Gauge, span_gauge
from shoots.lighting.queries.notation import power_words, shutter_text
from shoots.values.units import OutOfRange

MET_STOPS = -1e-6
"""A margin above this is met. [stop]"""
SETTINGS_MENDS = (
    MendKind.HIGH_SPEED_SYNC,
    MendKind.DIFFUSER_OFF,
    MendKind.NEARER,
    MendKind.FARTHER,
    MendKind.WAIT,
)
"""Mends that are a change in the plan; the others need something that is not in the setup."""
BALANCE = (Wish.AMBIENT, Wish.BACKGROUND, Wish.SKY_HOLDS, Wish.RATIO)
"""Wishes about flash against ambient light, which no filter, ISO or aperture moves."""
MOST_ON_LENS = 2
MOST_MORE_HEADS = 3
EXTRA_IN_PRACTICE_STOPS = -1.6
"""What high-speed sync costs beyond the ideal loss, implied by a published pair of manuals. [stop]"""


class NoSuchMend(ValueError):
    """Raised when a change is asked for that this setup does not have."""


@dataclass(frozen=True)
class WishRow:
    """One wish: how it comes out with the present settings, and with those that were found."""

    now: Outcome
    found: Outcome | None
    limits: tuple[float | None, float | None] = (None, None)
    """Widest and smallest aperture, for a wish about it."""

    @property
    def best(self) -> Outcome:
        """How it comes out with the best settings that are known."""
        return self.found or self.now

    @property
    def tolerance_stops(self) -> float | None:
        """How far off it may be to either side; None for a limit."""
        if self.now.unit != "stop" or self.now.wish is Wish.SKY_HOLDS:
            return None
        return self.now.margin_stops + abs(self.now.got - self.now.wanted)

    @property
    def band(self) -> Gauge | None:
        """Where it shall lie on the scale of stops; None where its unit is another."""
        if self.now.wish is Wish.SKY_HOLDS:
            return span_gauge(-GAUGE_STOPS, self.now.wanted)
        wide = self.tolerance_stops
        return None if wide is None else span_gauge(self.now.wanted - wide, self.now.wanted + wide)

    @property
    def now_gauge(self) -> Gauge:
        return span_gauge(self.now.got, self.now.got)

    @property
    def found_gauge(self) -> Gauge | None:
        return span_gauge(self.found.got, self.found.got) if self.found else None

    @property
    def is_met(self) -> bool:
        return self.now.margin_stops >= MET_STOPS

    @property
    def is_met_found(self) -> bool:
        return self.found is not None and self.found.margin_stops >= MET_STOPS


@dataclass(frozen=True)
class Change:
    """One setting: what it is and what it would be. `name` is a code, or the letter of a light."""

    name: str
    now: str
    found: str

    @property
    def is_same(self) -> bool:
        return self.now == self.found


@dataclass(frozen=True)
class MendRow:
    """A single change that helps; `key` is what the page posts to have it, empty where it is no settings change."""

    mend: Mend
    key: str


@dataclass(frozen=True)
class FastSync:
    """What high-speed sync would cost the flash at a time, against a filter that gives the same aperture. [stop]"""

    shutter_s: float
    filter_stops: float
    ideal_stops: float
    practice_stops: float


@dataclass(frozen=True)
class Finding:
    """What the search answers.

    `changes_setup` and `changes_lamps` are the fields to write, by the lamp's key.
    """

    solution: Solution
    rows: tuple[WishRow, ...]
    settings: tuple[Change, ...]
    mends: tuple[MendRow, ...]
    fails_balance: bool
    fast_sync: FastSync | None
    changes_setup: Mapping[str, Any]
    changes_lamps: Mapping[int, Mapping[str, Any]]

    @property
    def is_met(self) -> bool:
        return self.solution.is_met

    @property
    def changes_anything(self) -> bool:
        return any(not one.is_same for one in self.settings)


def wish_rows(core: Setup, problem: Problem, reading: SetupReading) -> tuple[WishRow, ...]:
    """Return every wish with what the present settings make of it; the search is not asked."""
    try:
        limits = problem.wishes.widest, problem.wishes.narrowest
        return tuple(WishRow(one, None, limits) for one in outcomes(core, problem.wishes, reading))
    except OutOfRange:
        return ()


def bag_filters(setup: models.Setup) -> list[Filter]:
    """Return the neutral filters that can go on the lens, weakest first; one query."""
    filters = Filter.objects.of_studio(setup.studio).filter(kind=FilterKind.ND, put_away_at=None)
    return list(filters.order_by("loss_stops", "pk"))


def find(
    setup: models.Setup,
    lamps: Sequence[tuple[str, models.PlacedLamp]],
    problem: Problem,
    reading: SetupReading,
    filters: Sequence[Filter],
    mend: str = "",
) -> Finding | None:
    """Return the best settings, with one mend taken over if it is named; None where no exposure time syncs.

    Raises
    ------
    NoSuchMend
        If the mend is none of this setup's.
    """
    asked, taken, hour = with_mend(problem, mend) if mend else (problem, {}, None)
    try:
        solution = _solved(asked)
        better = mends(asked, solution)
    except (NoTimeSyncs, OutOfRange):
        return None
    changes_setup = _setup_changes(setup, solution, filters)
    if hour is not None:
        changes_setup["shoot_time"] = hour.time().replace(second=0, microsecond=0)
    changes_lamps = {placed.pk: _lamp_changes(name, placed, solution, taken) for name, placed in lamps}
    now = {(row.wish, row.letter): row for row in outcomes(problem.setup, problem.wishes, reading)}
    limits = problem.wishes.widest, problem.wishes.narrowest
    rows = tuple(
        WishRow(now[one.wish, one.letter], one, limits) for one in solution.outcomes if (one.wish, one.letter) in now
    )
    return Finding(
        solution=solution,
        rows=rows,
        settings=_settings(setup, lamps, solution, changes_setup, changes_lamps),
        mends=tuple(MendRow(one, key_of(one) if _is_settings(one, lamps) else "") for one in better),
        fails_balance=any(one.wish in BALANCE for one in solution.failing),
        fast_sync=_fast_sync(problem, solution),
        changes_setup=changes_setup,
        changes_lamps=changes_lamps,
    )


def _is_settings(mend: Mend, lamps: Sequence[tuple[str, models.PlacedLamp]]) -> bool:
    """Return whether a mend is a change in the plan; more heads are where the bag has so many."""
    if mend.kind is not MendKind.ONE_MORE_HEAD:
        return mend.kind in SETTINGS_MENDS
    lamp = next(placed.lamp for name, placed in lamps if name == mend.letter)
    used = sum(placed.heads for _name, placed in lamps if placed.lamp_id == lamp.pk)
    return used + mend.amount <= lamp.quantity


def key_of(mend: Mend) -> str:
    """Return a mend as one word that a page can post: its kind, its light, how much, and till when."""
    until = mend.until.strftime("%H%M") if mend.until else ""
    return f"{mend.kind}:{mend.letter}:{mend.amount:.3f}:{until}"


def with_mend(problem: Problem, key: str) -> tuple[Problem, dict[str, dict[str, Any]], datetime | None]:
    """Return the problem with a mend taken over, what that changes on each light by letter, and the new hour.

    Raises
    ------
    NoSuchMend
        If the key is none of this setup's.
    """
    parts = key.split(":")
    try:
        kind, name, amount, until = MendKind(parts[0]), parts[1], float(parts[2]), parts[3]
    except (ValueError, IndexError):
        raise NoSuchMend(key) from None
    if kind is MendKind.HIGH_SPEED_SYNC:
        return replace(problem, allow_high_speed_sync=True), {}, None
    if kind is MendKind.WAIT:
        then = next((one for one in problem.later if one.at.strftime("%H%M") == until), None)
        if then is None:
            raise NoSuchMend(key)
        return replace(problem, setup=replace(problem.setup, ambient=then.ambient)), {}, then.at
    try:
        light = problem.setup.light(name)
    except KeyError:
        raise NoSuchMend(key) from None
    if kind is MendKind.DIFFUSER_OFF and light.modifier is not None:
        bare = replace(light, modifier=light.modifier.without(LayerKind.OUTER_DIFFUSER))
        return replace(problem, setup=problem.setup.with_light(bare)), {name: {"outer_diffuser_off": True}}, None
    if kind is MendKind.ONE_MORE_HEAD and amount in range(1, MOST_MORE_HEADS + 1):
        heads = light.heads + int(amount)
        more = replace(light, heads=heads)
        return replace(problem, setup=problem.setup.with_light(more)), {name: {"heads": heads}}, None
    if kind in (MendKind.NEARER, MendKind.FARTHER) and math.isfinite(amount):
        place = round(light.floor_m + (amount if kind is MendKind.FARTHER else -amount), 2)
        if not 0.2 <= place <= 60.0:
            raise NoSuchMend(key)
        moved = replace(light, floor_m=place)
        return replace(problem, setup=problem.setup.with_light(moved)), {name: {"distance_m": place}}, None
    raise NoSuchMend(key)


def _solved(problem: Problem) -> Solution:
    """Return the best solution that a setup can hold: at most two filters on the lens."""
    solution = solve(problem)
    if len(solution.nd_stops) <= MOST_ON_LENS:
        return solution
    strongest = sorted(problem.setup.filters, key=lambda one: one.stops)[-MOST_ON_LENS:]
    return solve(replace(problem, setup=replace(problem.setup, filters=tuple(strongest))))


def _setup_changes(setup: models.Setup, solution: Solution, filters: Sequence[Filter]) -> dict[str, Any]:
    left, chosen = list(filters), []
    for stops in solution.nd_stops:
        one = next(one for one in left if one.loss_stops == stops)
        left.remove(one)
        chosen.append(one)
    chosen += [None] * (MOST_ON_LENS - len(chosen))
    changes = {
        "aperture": solution.aperture.marked,
        "shutter_s": solution.shutter.marked,
        "iso": round(solution.iso.marked),
        "nd": chosen[0],
        "nd_second": chosen[1],
    }
    # Marks that mean the same as before stay as they were typed; marks are a ratio apart, however short the time.
    return {name: value for name, value in changes.items() if not _same(getattr(setup, name), value, abs_tol=0.0)}


def _lamp_changes(
    name: str, placed: models.PlacedLamp, solution: Solution, taken: Mapping[str, Mapping[str, Any]]
) -> dict[str, Any]:
    powers, floors = dict(solution.powers), dict(solution.floors)
    changes = dict(taken.get(name, {}))
    if name in powers:
        changes["power_down_stops"] = round(-math.log2(powers[name]), 2) + 0.0
    if name in floors:
        changes["distance_m"] = round(floors[name], 2)
    if placed.lamp.kind == LampKind.FLASH and placed.lamp.has_high_speed_sync:
        changes["high_speed_sync"] = solution.high_speed_sync
    # Stops and metres are kept to hundredths.
    return {field: value for field, value in changes.items() if not _same(getattr(placed, field), value, abs_tol=5e-3)}


def _same(old: Any, new: Any, abs_tol: float) -> bool:
    if isinstance(old, float) and isinstance(new, float):
        return math.isclose(old, new, rel_tol=1e-3 if not abs_tol else 1e-4, abs_tol=abs_tol)
    return bool(old == new)


def _settings(
    setup: models.Setup,
    lamps: Sequence[tuple[str, models.PlacedLamp]],
    solution: Solution,
    changes_setup: Mapping[str, Any],
    changes_lamps: Mapping[int, Mapping[str, Any]],
) -> tuple[Change, ...]:
    def both(name: str, write: Any) -> Change:
        old = getattr(setup, name)
        return Change(name, write(old), write(changes_setup.get(name, old)))

    old_filters = " + ".join(one.name for one in (setup.nd, setup.nd_second) if one)
    new_filters = " + ".join(
        one.name for one in (changes_setup.get("nd", setup.nd), changes_setup.get("nd_second", setup.nd_second)) if one
    )
    rows = [
        both("aperture", lambda f: f"f/{f:g}"),
        both("shutter_s", lambda t: f"{shutter_text(t)} s"),
        both("iso", str),
        Change("nd", old_filters, new_filters),
    ]
    if "shoot_time" in changes_setup:
        old_hour = setup.shoot_time.strftime("%H:%M") if setup.shoot_time else ""
        rows.append(Change("shoot_time", old_hour, changes_setup["shoot_time"].strftime("%H:%M")))
    if any(placed.high_speed_sync for _name, placed in lamps) or solution.high_speed_sync:
        was = any(placed.high_speed_sync for _name, placed in lamps)
        rows.append(Change("high_speed_sync", "on" if was else "", "on" if solution.high_speed_sync else ""))
    for name, placed in lamps:
        changed = changes_lamps[placed.pk]
        rows.append(Change(name, _lamp_words(placed, {}), _lamp_words(placed, changed)))
    return tuple(rows)


def _lamp_words(placed: models.PlacedLamp, changed: Mapping[str, Any]) -> str:
    down = changed.get("power_down_stops", placed.power_down_stops)
    heads = changed.get("heads", placed.heads)
    beside = f"{heads} × " if heads > 1 else ""
    return f"{beside}{power_words(down)}, {changed.get('distance_m', placed.distance_m):g} m"


def _fast_sync(problem: Problem, solution: Solution) -> FastSync | None:
    """Return what high-speed sync would cost in the place of the filters that were found."""
    stops = math.fsum(solution.nd_stops)
    if stops <= 0.0 or solution.high_speed_sync or not problem.setup.lights:
        return None
    shutter = solution.shutter.exact * 2.0**-stops
    camera = problem.setup.camera
    if shutter >= camera.sync_s or camera.curtain_s <= 0.0 or shutter < camera.fastest_s:
        return None
    ideal = -high_speed_sync_stops(shutter, camera.curtain_s)
    return FastSync(shutter, stops, ideal, ideal - EXTRA_IN_PRACTICE_STOPS)


def evaluated(core: Setup) -> SetupReading | None:
    """Return a setup's evaluation; None where the numbers can't be meant together."""
    try:
        return evaluate(core)
    except OutOfRange:
        return None
