"""One request in plain data, one answer in plain data: a quantity, a setup to evaluate, or a problem to
solve.

References
----------
RFC 8259; own arrangement, described in the project's guide.
"""

from collections.abc import Mapping
from typing import Any

from shoots.lighting.core.codec import Fault, WrongInput, decode, encode, type_name
from shoots.lighting.core.codecshapes import described_shapes
from shoots.lighting.core.framecheck import Warned, troubles
from shoots.lighting.core.mends import Mend, mends
from shoots.lighting.core.quantities import Quantity, compute, quantities
from shoots.lighting.core.readings import SetupReading, evaluate
from shoots.lighting.core.setup import Setup
from shoots.lighting.core.solver import solve
from shoots.lighting.core.wishes import Problem, Solution

REQUESTS = ("quantity", "evaluate", "solve")


EXAMPLES: tuple[Mapping[str, Any], ...] = (
    {"quantity": "flash_f_number", "guide_number_m": 45, "distance_m": 2, "iso": 100, "power": "1/4"},
    {"quantity": "sun_position", "at": "2027-06-21T13:00:00+01:00", "latitude_deg": 51.5074, "longitude_deg": -0.1278},
    {
        "quantity": "hidden_share",
        "front": {"shape": "ROUND", "width_m": 0.95, "height_m": 0.95},
        "distance_m": 1.5,
        "flag": {"shape": "RECTANGLE", "width_m": 0.6, "height_m": 0.9},
        "flag_distance_m": 0.8,
        "sideways_m": 0.2,
    },
    {
        "evaluate": {
            "exposure": {"f_number": 8, "shutter_s": "1/200", "iso": 100},
            "lights": [
                {"letter": "A", "part": "KEY", "lamp": "BATTERY_300", "modifier": "OCTAGON_95", "floor_m": 1.2},
                {"letter": "B", "part": "RIM", "lamp": "BATTERY_300", "bearing_deg": 150, "gels": ["QUARTER_CTO"]},
            ],
            "ambient": {"ev100": 12, "spread_stops": 0.2},
            "panels": [
                {"letter": "1", "panel": "POLYBOARD_WHITE", "bearing_deg": -70, "for_letter": "A"},
                {"letter": "2", "panel": "FLAG", "bearing_deg": 35, "floor_m": 0.8, "height_m": 1.8, "for_letter": "A"},
            ],
        }
    },
    {
        "solve": {
            "setup": {
                "exposure": {"f_number": 8, "shutter_s": "1/200"},
                "lights": [{"letter": "A", "part": "KEY", "lamp": "BATTERY_300", "modifier": "OCTAGON_95"}],
                "ambient": {"ev100": 12, "background_ev100": 14.2},
                "lens": {"focal_mm": 50, "widest": 1.4, "narrowest": 16},
                "filters": ["ND_3", "ND_6"],
            },
            "wishes": {"ambient": {"stops": -2.5, "tolerance_stops": 0.5}, "narrowest": 5.6},
        }
    },
)
"""Requests that can be sent as they stand."""


def listing() -> dict[str, Any]:
    """Return what can be asked for: every quantity with its inputs, units and source, and every shape.

    Returns
    -------
    dict[str, Any]
        ``requests`` with examples; ``quantities`` in the order of the list; ``shapes``, the objects and named
        values that inputs and whole setups are made of, with their fields.

    References
    ----------
    `shoots.lighting.core.quantities`.

    Examples
    --------
    >>> listing()["quantities"][0]["quantity"]
    'stops_from_ratio'
    """
    found = [_listed(one) for one in quantities().values()]
    taken = [one.annotation for wanted in quantities().values() for one in wanted.inputs]
    given = [wanted.result for wanted in quantities().values()]
    shapes = described_shapes([Setup, Problem, SetupReading, Solution, Mend, Warned, *taken, *given])
    return {
        "requests": {
            "forms": {
                "quantity": "its key, with its inputs beside it or as an object under inputs",
                "evaluate": "a Setup",
                "solve": "a Problem",
            },
            "examples": list(EXAMPLES),
        },
        "quantities": found,
        "shapes": shapes,
    }


def _listed(wanted: Quantity) -> dict[str, Any]:
    inputs = []
    for one in wanted.inputs:
        entry = {
            "name": one.name,
            "shape": one.shape,
            "unit": one.unit,
            "meaning": one.meaning,
            "required": one.required,
        }
        if not one.required:
            entry["default"] = encode(one.default)
        inputs.append(entry)
    return {
        "quantity": wanted.key,
        "summary": wanted.summary,
        "inputs": inputs,
        "result": type_name(wanted.result),
        "unit": wanted.unit,
        "returns": wanted.returns,
        "source": wanted.source,
    }


def answer(request: Any) -> dict[str, Any]:
    """Return the answer to one request.

    Parameters
    ----------
    request : Any
        An object with ``quantity`` and that quantity's inputs beside it or under ``inputs``, or with
        ``evaluate`` and a setup, or with ``solve`` and a problem.

    Returns
    -------
    dict[str, Any]
        Value, unit, spread and steps; for a setup its readings and what is wrong with it; for a problem the
        solution and what would mend it. Infinite numbers are None.

    Raises
    ------
    WrongInput
        If the request does not fit.
    UnknownQuantity
        If there is no such quantity.
    OutOfRange
        If a number cannot be meant.
    ValueError
        For other named errors of the core, such as an unknown zone.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> answer({"quantity": "flash_f_number", "guide_number_m": 32, "distance_m": 4, "iso": 100, "power": 1})["value"]
    8.0
    """
    if not isinstance(request, Mapping):
        raise WrongInput("", Fault.WRONG_TYPE, "object")
    asked = [name for name in REQUESTS if name in request]
    if len(asked) != 1:
        raise WrongInput("", Fault.NOT_ONE_OF, ", ".join(REQUESTS))
    rest = {name: value for name, value in request.items() if name != asked[0]}
    if asked[0] == "quantity":
        if "inputs" in rest:
            inner = rest.pop("inputs")
            if not isinstance(inner, Mapping):
                raise WrongInput("inputs", Fault.WRONG_TYPE, "object")
            for name in inner:
                if name in rest:
                    raise WrongInput(f"inputs.{name}", Fault.TWICE, name)
            rest.update(inner)
        return _quantity(decode(str, request["quantity"], "quantity"), rest)
    if rest:
        raise WrongInput(next(iter(rest)), Fault.UNKNOWN, asked[0])
    if asked[0] == "evaluate":
        setup = decode(Setup, request["evaluate"], "evaluate")
        return {"reading": encode(evaluate(setup)), "troubles": encode(troubles(setup))}
    problem = decode(Problem, request["solve"], "solve")
    solution = solve(problem)
    found = encode(solution)
    # The setup that was put in comes back in full only where it changed: settings, powers and places.
    found.pop("setup")
    return {"is_met": solution.is_met, "solution": found, "mends": encode(mends(problem, solution))}


def _quantity(key: str, inputs: Mapping[str, Any]) -> dict[str, Any]:
    found = compute(key, inputs)
    return {
        "quantity": key,
        "value": encode(found.value),
        "unit": found.unit,
        "spread_stops": encode(found.spread_stops),
        "steps": encode(found.steps),
    }
