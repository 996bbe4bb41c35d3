"""One request in plain data, one answer in plain data: a quantity, a setup to evaluate, or a problem to
solve.

References
----------
RFC 8259; own arrangement, described in the project's guide.
"""

from collections.abc import Mapping
from typing import Any

from shoots.lighting.core.codec import Fault, WrongInput, decode, encode
from shoots.lighting.core.framecheck import troubles
from shoots.lighting.core.mends import mends
from shoots.lighting.core.quantities import compute, quantities
from shoots.lighting.core.readings import evaluate
from shoots.lighting.core.setup import Setup
from shoots.lighting.core.solver import solve
from shoots.lighting.core.wishes import Problem

REQUESTS = ("quantity", "evaluate", "solve")


def listing() -> list[dict[str, Any]]:
    """Return every quantity with its inputs, units and source, as plain data.

    Returns
    -------
    list[dict[str, Any]]
        In the order of the list.

    References
    ----------
    `shoots.lighting.core.quantities`.

    Examples
    --------
    >>> listing()[0]["quantity"]
    'stops_from_ratio'
    """
    return [
        {
            "quantity": one.key,
            "summary": one.summary,
            "inputs": [encode(entry) for entry in one.inputs],
            "unit": one.unit,
            "returns": one.returns,
            "source": one.source,
        }
        for one in quantities().values()
    ]


def answer(request: Any) -> dict[str, Any]:
    """Return the answer to one request.

    Parameters
    ----------
    request : Any
        An object with ``quantity`` and that quantity's inputs beside it, or with ``evaluate`` and a setup,
        or with ``solve`` and a problem.

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
        "spread_stops": encode(getattr(found.value, "spread_stops", None)),
        "steps": encode(found.steps),
    }
