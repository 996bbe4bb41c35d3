"""Every quantity of the light in one list: its inputs with units, its own unit, its source, and the function.

What a quantity needs and gives is read from its function's signature and docstring, so that the list cannot
say something else than the function does.

References
----------
The sources stand in the functions; numpydoc's sections for the form of their docstrings.
"""

import dataclasses
import difflib
import inspect
import re
import typing
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from shoots.kit.core.lamps import HIGH_SPEED_SYNC_SPREAD_STOPS
from shoots.lighting.core.catalogue import FUNCTIONS, SYNONYMS
from shoots.lighting.core.codec import Fault, WrongInput, decode, is_infinite, type_name
from shoots.lighting.core.suffixes import Taken, in_its_unit, input_meant
from shoots.places.core.daylight import daylight_spread
from shoots.values.steps import Given, Step


@dataclass(frozen=True, slots=True)
class Input:
    """One input of a quantity.

    Attributes
    ----------
    name : str
        With its unit suffix.
    shape : str
        "number", "whole number", "text" and so on.
    unit : str
        Unit, empty where there is none.
    meaning : str
        What it means, from the docstring.
    required : bool
        Whether it has to be given.
    default : Any
        What it is when it is left out; None for one that is required.
    annotation : Any
        Its type in the core.
    """

    name: str
    shape: str
    unit: str
    meaning: str
    required: bool
    default: Any
    annotation: Any


@dataclass(frozen=True, slots=True)
class Quantity:
    """One quantity.

    Attributes
    ----------
    key : str
        Name of the function.
    summary : str
        What it returns, one sentence from the docstring.
    inputs : tuple[Input, ...]
        In order.
    unit : str
        Unit of the result; empty for something made of several numbers.
    result : Any
        Type of the result in the core.
    returns : str
        What comes back, from the docstring.
    source : str
        Where it comes from.
    call : Callable[..., Any]
        The function.
    """

    key: str
    summary: str
    inputs: tuple[Input, ...]
    unit: str
    result: Any
    returns: str
    source: str
    call: Callable[..., Any]


class UnknownQuantity(KeyError):
    """Raised when there is no such quantity.

    Attributes
    ----------
    key : str
        What was asked for.
    nearest : tuple[str, ...]
        Quantities that are called much like it.
    """

    def __init__(self, key: str, nearest: tuple[str, ...] = ()) -> None:
        super().__init__(key)
        self.key, self.nearest = key, nearest


CLEAR_SKY = {
    "clear_illuminance",
    "clear_illuminance_by_air_mass",
    "sun_normal_illuminance",
    "clear_sky_illuminance",
    "irradiance_clear",
    "irradiance_haurwitz",
    "irradiance_solis",
    "irradiance_ineichen",
}
CLOSED_SKY = {"overcast_illuminance", "overcast_zenith_luminance"}
"""Models of an average sky, whose spread is that of the daylight."""

RATIOS = {"ratio", "lighting_ratio_to_one", "magnification"}
"""Inputs that people write with a colon: 16:9, 3:1, 1:4. Elsewhere it may be a time of day."""

MOST_NEAREST = 8
"""Names that are offered for one that is none. [1]"""

_UNIT = re.compile(r"\[([^\[\]]+)\]\s*$")


@cache
def quantities() -> Mapping[str, Quantity]:
    """Return every quantity by its key.

    Returns
    -------
    Mapping[str, Quantity]
        In the order of the list.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> quantities()["incident_ev"].unit
    'EV'
    """
    return {function.__name__: _quantity(function) for function in FUNCTIONS}


def _quantity(function: Callable[..., Any]) -> Quantity:
    sections = _sections(inspect.getdoc(function) or "")
    described = _entries(sections.get("Parameters", []))
    hints = typing.get_type_hints(function)
    inputs = []
    for name, parameter in inspect.signature(function).parameters.items():
        meaning = described.get(name, "")
        shape = hints[name]
        inputs.append(
            Input(
                name=name,
                shape="number" if isinstance(shape, typing.TypeVar) else type_name(shape),
                unit=_unit(meaning),
                meaning=_UNIT.sub("", meaning).strip(),
                required=parameter.default is inspect.Parameter.empty,
                default=None if parameter.default is inspect.Parameter.empty else parameter.default,
                annotation=float if isinstance(shape, typing.TypeVar) else shape,
            )
        )
    returned = next(iter(_entries(sections.get("Returns", [])).values()), "").strip()
    source = " ".join(line.strip() for line in sections.get("References", [])).strip()
    return Quantity(
        key=function.__name__,
        summary=" ".join(line.strip() for line in sections["Summary"]).strip(),
        inputs=tuple(inputs),
        unit=_unit(returned) if _is_number(hints.get("return")) else "",
        result=float if isinstance(hints["return"], typing.TypeVar) else hints["return"],
        returns=_UNIT.sub("", returned).strip(),
        source=source if source and not source.startswith("Those of the module") else _module_source(function),
        call=function,
    )


def _is_number(shape: Any) -> bool:
    """Return whether a function gives a number, one or none, or what it took: a number or an array."""
    return shape in (float, int, float | None) or isinstance(shape, typing.TypeVar)


def _module_source(function: Callable[..., Any]) -> str:
    text = _sections(inspect.getdoc(inspect.getmodule(function)) or "")
    return " ".join(line.strip() for line in text.get("References", [])).strip()


def _sections(text: str) -> dict[str, list[str]]:
    """Return the lines of a docstring under their headings, the first paragraph as Summary."""
    found: dict[str, list[str]] = {"Summary": []}
    heading = "Summary"
    lines = text.splitlines()
    for index, line in enumerate(lines):
        below = lines[index + 1] if index + 1 < len(lines) else ""
        if line.strip() and set(below.strip()) == {"-"} and len(below.strip()) >= 3:
            heading = line.strip()
            found[heading] = []
        elif set(line.strip()) != {"-"} or not line.strip():
            if heading == "Summary" and not line.strip() and found["Summary"]:
                heading = "More"
                found[heading] = []
            else:
                found[heading].append(line)
    return found


def _entries(lines: list[str]) -> dict[str, str]:
    """Return the descriptions of a section by name; several names before one colon share one."""
    found: dict[str, str] = {}
    names: list[str] = []
    for line in lines:
        if not line.strip():
            continue
        if not line.startswith(" "):
            names = [name.strip().lstrip("*") for name in line.split(":")[0].split(",")]
            for name in names:
                found[name] = ""
        else:
            for name in names:
                found[name] = f"{found[name]} {line.strip()}".strip()
    return found


def _unit(description: str) -> str:
    match = _UNIT.search(description)
    return match.group(1) if match else ""


def quantity(key: str) -> Quantity:
    """Return one quantity.

    Parameters
    ----------
    key : str
        Its key.

    Returns
    -------
    Quantity
        The quantity.

    Raises
    ------
    UnknownQuantity
        If there is none.

    References
    ----------
    Own arrangement.
    """
    try:
        return quantities()[key]
    except KeyError:
        words = re.split(r"[^a-z0-9]+", key.lower())
        alike = difflib.get_close_matches("_".join(words), quantities(), 5, 0.55)
        # What is called almost so first, then what the words mean elsewhere, then what merely looks alike.
        almost = [one for one in alike if difflib.SequenceMatcher(None, "_".join(words), one).ratio() > 0.8]
        meant = [one for word in words for one in SYNONYMS.get(word, ())]
        shared = sorted(quantities(), key=lambda one: (-len(set(words) & set(one.split("_"))), one))
        close = [one for one in shared[:5] if set(words) & set(one.split("_"))]
        raise UnknownQuantity(key, tuple(dict.fromkeys([*almost, *meant, *close, *alike]))[:MOST_NEAREST]) from None


class BeyondNumbers(ValueError):
    """Raised when inputs are each in range but together too large or too small to be computed with."""


@dataclass(frozen=True, slots=True)
class Computed:
    """A quantity, computed.

    Attributes
    ----------
    value : Any
        What the function returned.
    unit : str
        Its unit; empty for something made of several numbers.
    steps : tuple[Step, ...]
        How it came about: those that the result carries, else the one formula itself.
    spread_stops : float or None
        How far a model of nature may lie off, to either side; None for a formula, which is as good as what is
        put in. [stop]
    """

    value: Any
    unit: str
    steps: tuple[Step, ...]
    spread_stops: float | None = None


def compute(key: str, inputs: Mapping[str, Any]) -> Computed:
    """Return a quantity computed from plain data.

    Parameters
    ----------
    key : str
        Its key.
    inputs : Mapping[str, Any]
        By name, as a JSON reader gives them; in another unit if the name's suffix says which.

    Returns
    -------
    Computed
        Value, unit and steps.

    Raises
    ------
    UnknownQuantity
        If there is no such quantity.
    WrongInput
        If an input is missing, unknown or of the wrong type.
    OutOfRange
        If a number cannot be meant.
    BeyondNumbers
        If the numbers are too extreme together.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> compute("hyperfocal", {"focal_mm": 85, "f_number": 2.8, "circle_mm": 0.03}).unit
    'm'
    """
    wanted = quantity(key)
    names = [one.name for one in wanted.inputs]
    given = {}
    for name, value in inputs.items():
        taken = Taken(name, float) if name in names else input_meant(name, names)
        if taken is None:
            raise WrongInput(name, Fault.UNKNOWN, ", ".join(names))
        if taken.name in given:
            raise WrongInput(name, Fault.TWICE, taken.name)
        one = wanted.inputs[names.index(taken.name)]
        if taken.name in RATIOS and isinstance(value, str):
            value = value.replace(":", "/")
        found = one.default if is_infinite(one.default) and value is None else decode(one.annotation, value, name)
        given[taken.name] = found if name == taken.name else in_its_unit(found, taken)
    for one in wanted.inputs:
        if one.required and one.name not in given:
            raise WrongInput(one.name, Fault.MISSING, f"{one.shape} [{one.unit}]" if one.unit else one.shape)
    try:
        value = wanted.call(**given)
    except (ArithmeticError, ValueError) as error:
        # The core's own errors have names; "math domain error" is what the smallest floats end in.
        if isinstance(error, ValueError) and type(error) is not ValueError:
            raise
        raise BeyondNumbers(key) from error
    carried = getattr(value, "because", ())
    return Computed(value, wanted.unit, carried or _own_steps(wanted, given, value), _spread(wanted.key, given, value))


def _own_steps(wanted: Quantity, given: Mapping[str, Any], value: Any) -> tuple[Step, ...]:
    """Return the step of a quantity that is one formula: one for each number that came out."""
    by_name = {one.name: one.unit for one in wanted.inputs}
    numbers = tuple(
        Given(name, float(one), by_name[name])
        for name, one in given.items()
        if isinstance(one, int | float) and not isinstance(one, bool)
    )
    if isinstance(value, int | float) and not isinstance(value, bool):
        results = [(wanted.key, float(value), wanted.unit)]
    elif dataclasses.is_dataclass(value):
        fields = ((field.name, getattr(value, field.name)) for field in dataclasses.fields(value))
        results = [
            (f"{wanted.key}.{name}", float(one), "")
            for name, one in fields
            if isinstance(one, int | float) and not isinstance(one, bool)
        ]
    else:
        results = []
    return tuple(Step(name, wanted.returns, numbers, one, unit, wanted.source) for name, one, unit in results)


def _spread(key: str, given: Mapping[str, Any], value: Any) -> float | None:
    """Return how far a model of nature may lie off, in stops; None for a formula, which is as good as its inputs."""
    carried = getattr(value, "spread_stops", None)
    if carried is not None:
        return float(carried)
    if key in CLEAR_SKY:
        return daylight_spread(given["altitude_deg"], 0.0)
    if key in CLOSED_SKY:
        return daylight_spread(given["altitude_deg"], 8.0)
    if key == "clouded_illuminance":
        return daylight_spread(given["altitude_deg"], given["oktas"])
    if key in ("high_speed_sync_stops", "high_speed_sync_share"):
        return HIGH_SPEED_SYNC_SPREAD_STOPS
    return None
