"""Measure the light's core: ratios of two ways of doing the same work in one run, and times on this machine.

Run it from the project's root: ``python -m bench.light``. Ratios are what to compare; times depend on the machine and
on what else it does.
"""

import itertools
import statistics
import time
from collections.abc import Callable
from dataclasses import replace
from datetime import date

import numpy as np

from shoots.kit.core.cameras import FilterSpec, LensSpec
from shoots.kit.core.starting import LAMPS, MODIFIERS, Lamp, Modifier
from shoots.lighting.core.ambient import metered_ambient, overcast_background
from shoots.lighting.core.candidates import Candidates, evaluate_many, evaluate_one, full_lights
from shoots.lighting.core.mends import mends
from shoots.lighting.core.readings import evaluate
from shoots.lighting.core.setup import Exposure, Part, PlacedLight, Setup
from shoots.lighting.core.solver import solve
from shoots.lighting.core.wishes import Problem, Target, Wishes
from shoots.places.core.cameraday import camera_day
from shoots.places.core.lightday import sun_day

COUNT = 10_000
HEAD = LAMPS[Lamp.BATTERY_300]


def best_of(times: int, work: Callable[[], object]) -> float:
    """Return the least of several durations, in seconds; the work runs once before to warm up."""
    work()
    found = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return min(found)


def setup_of(count: int, level: float) -> Setup:
    """Return a setup with a key, two rims and a fill on an overcast day."""
    lights = (
        PlacedLight("A", Part.KEY, HEAD, MODIFIERS[Modifier.OCTAGON_95], floor_m=1.2, height_m=2.4),
        PlacedLight("B", Part.RIM, HEAD, bearing_deg=150.0, floor_m=2.5, height_m=2.2),
        PlacedLight("C", Part.FILL, HEAD, MODIFIERS[Modifier.UMBRELLA_WHITE], (), -20.0, 2.5, 2.0),
        PlacedLight("D", Part.RIM, HEAD, bearing_deg=-150.0, floor_m=2.5, height_m=2.2),
    )
    return Setup(
        Exposure(8.0, 1 / 200),
        lights[:count],
        metered_ambient(level, overcast_background(level)),
        lens=LensSpec(50.0, 1.4, 22.0),
        filters=(FilterSpec(3.0), FilterSpec(6.0)),
    )


def candidates() -> None:
    """Print how much faster NumPy evaluates candidates than a loop over the same functions."""
    random = np.random.default_rng(20270621)
    lights = full_lights(setup_of(4, 12.0))
    many = Candidates(
        random.uniform(1.4, 22.0, COUNT),
        random.uniform(1 / 200, 1 / 8, COUNT),
        random.uniform(100.0, 3200.0, COUNT),
        random.uniform(0.0, 6.0, COUNT),
        tuple(random.uniform(0.004, 1.0, COUNT) for _ in lights),
    )
    columns = [many.f_number, many.shutter_s, many.iso, many.nd_stops, *many.powers]
    rows = list(zip(*(column.tolist() for column in columns), strict=True))

    def loop() -> list[object]:
        return [evaluate_one(lights, 12.0, n, t, s, nd, tuple(p)) for n, t, s, nd, *p in rows]

    slow, fast = best_of(3, loop), best_of(20, lambda: evaluate_many(lights, 12.0, many))
    print(f"{COUNT} candidates of {len(lights)} lights: loop {1e3 * slow:.1f} ms, NumPy {1e3 * fast:.2f} ms")
    print(f"  ratio {slow / fast:.0f} (wanted: at least 50)")


def solving() -> None:
    """Print how long solves take on full nominal scales."""
    wishes = {
        "dark": Wishes(ambient=Target(-2.5, 0.5), rims=Target(1.0, 0.5), key_over_fill=Target(2.0, 0.5)),
        "bright, f/1.4": Wishes(ambient=Target(-0.7, 0.5), rims=Target(1.0, 0.5), widest=1.4, narrowest=1.4),
        "sky and ratio": Wishes(background=Target(-1.0), key_over_fill=Target(3.0), rims=Target(1.0)),
    }
    for count in (3, 4):
        durations = {}
        for (name, wish), level, fast in itertools.product(wishes.items(), (9.0, 12.0, 15.0), (False, True)):
            problem = Problem(setup_of(count, level), wish, allow_high_speed_sync=fast)
            durations[name, level, fast] = best_of(3, lambda problem=problem: solve(problem))
        worst = max(durations, key=lambda key: durations[key])
        middle = statistics.median(durations.values())
        print(
            f"solve, {count} lights, {len(durations)} problems: median {1e3 * middle:.0f} ms, "
            f"worst {1e3 * durations[worst]:.0f} ms ({worst[0]}, EV {worst[1]:.0f}) (wanted: under 200 with three)"
        )
    problem = Problem(setup_of(3, 15.0), wishes["sky and ratio"])
    before = solve(problem)
    print(f"mends of one that fails: {1e3 * best_of(2, lambda: mends(problem, before)):.0f} ms")


def pages() -> None:
    """Print what a page asks of the core."""
    setup = setup_of(4, 12.0)
    print(f"evaluate a setup of four lights: {1e3 * best_of(20, lambda: evaluate(setup)):.2f} ms")
    twice = replace(setup, exposure=Exposure(11.0, 1 / 200))
    assert evaluate(twice) != evaluate(setup)
    day, place = date(2027, 6, 21), ("Europe/London", 60.1546, -1.1486)
    print(f"light periods of a date: {1e3 * best_of(5, lambda: sun_day(day, *place)):.0f} ms (wanted: under 100)")
    print(f"sides of a camera on a date: {1e3 * best_of(5, lambda: camera_day(day, *place, 170.0)):.0f} ms")


if __name__ == "__main__":
    candidates()
    solving()
    pages()
