"""Plain data to the shapes of the core and back, so that a script and a page put in and take out the same
things.

Numbers keep the names of the core with their unit suffixes, or take that of another unit; "1/200" is read as
a number. Enums are their values, moments are ISO 8601 texts with a zone, tuples are lists, dataclasses are
objects with their fields; a field that is left out takes its default. What is not a number (infinite) becomes
null on the way out.

References
----------
RFC 8259 (JSON knows no infinity and no NaN); ISO 8601 for moments.
"""

import dataclasses
import math
import re
import types
import typing
from collections.abc import Mapping, Sequence
from datetime import date, datetime, timedelta
from enum import Enum, StrEnum
from functools import cache
from typing import Any

import numpy as np

from shoots.kit.core.cameras import CameraSpec, FilterSpec, LensSpec
from shoots.kit.core.lamps import GelSpec, LampSpec, ModifierSpec, StandSpec
from shoots.kit.core.panels import PANELS, PanelSpec
from shoots.kit.core.starting import CAMERAS, FILTERS, GELS, LAMPS, LENSES, MODIFIERS, STANDS
from shoots.lighting.core.suffixes import Taken, in_its_unit, input_meant
from shoots.values.units import OutOfRange

KINDS: dict[Any, dict[str, Any]] = {
    shape: {str(key.value): spec for key, spec in kinds.items()}
    for shape, kinds in (
        (LampSpec, LAMPS),
        (ModifierSpec, MODIFIERS),
        (GelSpec, GELS),
        (StandSpec, STANDS),
        (CameraSpec, CAMERAS),
        (LensSpec, LENSES),
        (FilterSpec, FILTERS),
        (PanelSpec, PANELS),
    )
}
"""Starting kinds that may stand in the place of an object, by shape and name."""


class WrongInput(ValueError):
    """Raised when plain data does not fit the shape that is asked for.

    Attributes
    ----------
    path : str
        Where, such as ``setup.lights[0].power``.
    fault : Fault
        What is wrong.
    expected : str
        What would have been right: a type or a list of names.
    """

    def __init__(self, path: str, fault: "Fault", expected: str) -> None:
        super().__init__(f"{path or 'input'}: {fault}, expected {expected}")
        self.path, self.fault, self.expected = path, fault, expected


class Fault(StrEnum):
    """What can be wrong with plain data."""

    MISSING = "missing"
    UNKNOWN = "unknown"
    WRONG_TYPE = "wrong type"
    NOT_ONE_OF = "not one of"
    TWICE = "given twice"


_FRACTION = re.compile(r"\s*(\d{1,9}(?:\.\d{1,9})?)\s*/\s*(\d{1,9}(?:\.\d{1,9})?)\s*")


@cache
def _hints(shape: Any) -> dict[str, Any]:
    return typing.get_type_hints(shape)


def decode(shape: Any, value: Any, path: str = "") -> Any:
    """Return plain data as a shape of the core.

    Parameters
    ----------
    shape : Any
        float, int, str, bool, an enum, date, datetime, a dataclass, a tuple or sequence of these, or one or
        None.
    value : Any
        Plain data as a JSON reader gives it.
    path : str
        Where in the whole it stands, for the error.

    Returns
    -------
    Any
        An instance of ``shape``.

    Raises
    ------
    WrongInput
        If the data does not fit.
    OutOfRange
        If a dataclass refuses a number.

    References
    ----------
    RFC 8259; ISO 8601.

    Examples
    --------
    >>> from shoots.kit.core.lamps import GelSpec
    >>> decode(GelSpec, {"shift_mired": 159, "transmission": 0.55})
    GelSpec(shift_mired=159.0, transmission=0.55)
    """
    origin = typing.get_origin(shape)
    if origin in (typing.Union, types.UnionType):
        return _decode_union(shape, value, path)
    if origin in (tuple, list, Sequence):
        return _decode_sequence(shape, value, path)
    if origin is Mapping:
        return _decode_mapping(shape, value, path)
    if dataclasses.is_dataclass(shape):
        return _decode_object(shape, value, path)
    return _decode_leaf(shape, value, path)


def _decode_union(shape: Any, value: Any, path: str) -> Any:
    options = typing.get_args(shape)
    if value is None:
        if type(None) in options:
            return None
        raise WrongInput(path, Fault.WRONG_TYPE, _name(shape))
    left = [one for one in options if one is not type(None)]
    error: WrongInput | None = None
    for one in left:
        try:
            return decode(one, value, path)
        except WrongInput as failed:
            error = failed
    assert error is not None
    raise error


def _decode_sequence(shape: Any, value: Any, path: str) -> Any:
    if isinstance(value, str) or not isinstance(value, Sequence):
        raise WrongInput(path, Fault.WRONG_TYPE, _name(shape))
    inner = typing.get_args(shape)
    if typing.get_origin(shape) is tuple and not (len(inner) == 2 and inner[1] is Ellipsis):
        if len(value) != len(inner):
            raise WrongInput(path, Fault.WRONG_TYPE, _name(shape))
        pairs = zip(inner, value, strict=True)
        return tuple(decode(one, item, f"{path}[{index}]") for index, (one, item) in enumerate(pairs))
    return tuple(decode(inner[0], item, f"{path}[{index}]") for index, item in enumerate(value))


def _decode_mapping(shape: Any, value: Any, path: str) -> Any:
    if not isinstance(value, Mapping):
        raise WrongInput(path, Fault.WRONG_TYPE, _name(shape))
    names, inner = typing.get_args(shape)
    return {
        decode(names, name, _join(path, str(name))): decode(inner, one, _join(path, str(name)))
        for name, one in value.items()
    }


def _decode_object(shape: Any, value: Any, path: str) -> Any:
    if isinstance(value, str) and shape in KINDS:
        # A starting kind by its name, so that a script need not spell out a whole head.
        if value not in KINDS[shape]:
            raise WrongInput(path, Fault.NOT_ONE_OF, ", ".join(KINDS[shape]))
        return KINDS[shape][value]
    if not isinstance(value, Mapping):
        raise WrongInput(path, Fault.WRONG_TYPE, _name(shape))
    hints = _hints(shape)
    fields = {field.name: field for field in dataclasses.fields(shape)}
    found: dict[str, Any] = {}
    for name, inner in value.items():
        taken = Taken(name, float) if name in fields else input_meant(str(name), fields)
        where = _join(path, str(name))
        if taken is None:
            raise WrongInput(where, Fault.UNKNOWN, ", ".join(fields))
        if taken.name in found:
            raise WrongInput(where, Fault.TWICE, taken.name)
        default = fields[taken.name].default
        got = default if is_infinite(default) and inner is None else decode(hints[taken.name], inner, where)
        found[taken.name] = got if name == taken.name else in_its_unit(got, taken)
    for name, field in fields.items():
        if name in found:
            continue
        if field.default is dataclasses.MISSING and field.default_factory is dataclasses.MISSING:
            raise WrongInput(_join(path, name), Fault.MISSING, _name(hints[name]))
    try:
        return shape(**found)
    except OutOfRange as error:
        # Which of several lights it is: the shape itself does not know where it stands.
        raise OutOfRange(_join(path, error.name), error.value, error.low, error.high, error.unit) from error


def is_infinite(value: Any) -> bool:
    """Return whether a default is an infinite number, which plain data writes and may give as null.

    Parameters
    ----------
    value : Any
        The default of a field or of a parameter.

    Returns
    -------
    bool
        False for what is no number.

    References
    ----------
    RFC 8259 (JSON knows no infinity).

    Examples
    --------
    >>> is_infinite(float("inf")), is_infinite(2.0), is_infinite(None)
    (True, False, False)
    """
    return isinstance(value, float) and math.isinf(value)


def _decode_leaf(shape: Any, value: Any, path: str) -> Any:
    if shape is Any:
        return value
    if shape is float:
        number = _number(value)
        if number is not None:
            return number
    elif shape is int:
        number = _number(value)
        if number is not None and math.isfinite(number) and number == int(number):
            return int(number)
    elif shape is bool or shape is str:
        if isinstance(value, shape):
            return value
    elif isinstance(shape, type) and issubclass(shape, Enum):
        try:
            return shape(value)
        except ValueError:
            options = ", ".join(str(one.value) for one in shape)
            raise WrongInput(path, Fault.NOT_ONE_OF, options) from None
    elif shape in (datetime, date) and isinstance(value, str):
        try:
            return shape.fromisoformat(value)
        except ValueError:
            pass
    raise WrongInput(path, Fault.WRONG_TYPE, _name(shape))


def _number(value: Any) -> float | None:
    """Return a number, or a fraction such as "1/200" as one; None for anything else."""
    if isinstance(value, str):
        match = _FRACTION.fullmatch(value)
        return float(match[1]) / float(match[2]) if match and float(match[2]) > 0.0 else None
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    try:
        return float(value)
    except OverflowError:
        # A whole number beyond all floats: every range refuses it by name.
        return math.inf if value > 0 else -math.inf


def _join(path: str, name: str) -> str:
    return f"{path}.{name}" if path else name


def _name(shape: Any) -> str:
    """Return a shape's name as a reader of the door would write it."""
    if typing.get_origin(shape) in (typing.Union, types.UnionType):
        return " or ".join(_name(one) for one in typing.get_args(shape))
    if shape is type(None):
        return "null"
    if typing.get_origin(shape) is Mapping:
        return f"object of {_name(typing.get_args(shape)[1])}"
    if typing.get_origin(shape) in (tuple, list, Sequence):
        inner = [one for one in typing.get_args(shape) if one is not Ellipsis]
        return f"list of {', '.join(_name(one) for one in inner)}"
    plain = {float: "number", int: "whole number", str: "text", bool: "true or false"}
    more = {datetime: "moment with zone", date: "date"}
    if shape in plain or shape in more:
        return plain.get(shape) or more[shape]
    return str(getattr(shape, "__name__", shape))


def type_name(shape: Any) -> str:
    """Return the name of a shape as a reader of the door would write it.

    Parameters
    ----------
    shape : Any
        A type annotation of the core.

    Returns
    -------
    str
        "number", "list of text", the name of a dataclass or enum.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> type_name(float | None)
    'number or null'
    """
    return _name(shape)


def encode(value: Any) -> Any:
    """Return a shape of the core as plain data.

    Parameters
    ----------
    value : Any
        Anything that the core returns.

    Returns
    -------
    Any
        Data that every JSON writer takes; infinite numbers become None.

    Raises
    ------
    TypeError
        If the core never returns such a thing.

    References
    ----------
    RFC 8259; ISO 8601.

    Examples
    --------
    >>> encode({"far_m": math.inf, "near_m": 1.5})
    {'far_m': None, 'near_m': 1.5}
    """
    if value is None or (isinstance(value, bool | str) and not isinstance(value, Enum)):
        return value
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, int):
        return value
    if isinstance(value, float):
        return float(value) if math.isfinite(value) else None
    if isinstance(value, datetime | date):
        return value.isoformat()
    if isinstance(value, timedelta):
        return value.total_seconds()
    if isinstance(value, np.ndarray):
        return [encode(one) for one in value.tolist()]
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {field.name: encode(getattr(value, field.name)) for field in dataclasses.fields(value)}
    if isinstance(value, Mapping):
        return {str(encode(key)): encode(one) for key, one in value.items()}
    if isinstance(value, Sequence):
        return [encode(one) for one in value]
    raise TypeError(type(value).__name__)
