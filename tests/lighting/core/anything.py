"""Plain data that fits a shape of the core by type, with numbers that are usual, odd or impossible."""

import dataclasses
import inspect
import types
import typing
from collections.abc import Mapping, Sequence
from datetime import date, datetime
from enum import Enum
from typing import Any

from hypothesis import strategies as st

NUMBERS = (
    st.sampled_from([0.0, -1.0, 1.0, 0.5, 2.0, 8.0, 45.0, 100.0, 180.0, 1e-9, 1e9, 1e300, -1e300, 5e-324, "1/200"])
    | st.floats(0.01, 20.0)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.integers(-(10**30), 10**30)
)
WHOLE = st.sampled_from([0, 1, 2, 3, 8, 100, -1, 10**9]) | st.integers(1, 9)
MOMENTS = st.sampled_from(
    [
        "2027-06-21T12:00:00+00:00",
        "2027-06-21T12:00:00",
        "0001-01-01T00:00:00+00:00",
        "9999-12-31T23:59:59-12:00",
        "1900-03-28T02:30:00+01:00",
    ]
)
DAYS = st.sampled_from(["2027-06-21", "2027-12-21", "2027-03-28", "0001-01-01", "9999-12-31", "1583-01-01"])
TEXTS = st.sampled_from(["Europe/London", "Pacific/Apia", "Nowhere/At_All", "", "11.3", "f/8 3", "A", "../etc", "\x00"])


def fitting(shape: Any, depth: int = 0) -> st.SearchStrategy[Any]:
    """Return plain data for a type annotation of the core."""
    origin, inner = typing.get_origin(shape), typing.get_args(shape)
    if origin in (typing.Union, types.UnionType):
        return st.one_of([st.none() if one is type(None) else fitting(one, depth) for one in inner])
    if origin is tuple and not (len(inner) == 2 and inner[1] is Ellipsis):
        return st.tuples(*(fitting(one, depth + 1) for one in inner)).map(list)
    if origin in (tuple, list, Sequence):
        return st.lists(fitting(inner[0], depth + 1), max_size=3)
    if origin is Mapping:
        return st.dictionaries(fitting(inner[0], depth + 1).map(str), fitting(inner[1], depth + 1), max_size=3)
    if dataclasses.is_dataclass(shape):
        hints = typing.get_type_hints(shape)
        required, free = {}, {}
        for field in dataclasses.fields(shape):
            no_default = field.default is dataclasses.MISSING and field.default_factory is dataclasses.MISSING
            (required if no_default else free)[field.name] = fitting(hints[field.name], depth + 1)
        return st.fixed_dictionaries(required, optional=free if depth < 4 else {})
    if inspect.isclass(shape) and issubclass(shape, Enum):
        return st.sampled_from([one.value for one in shape])
    return {
        float: NUMBERS,
        int: WHOLE,
        bool: st.booleans(),
        datetime: MOMENTS,
        date: DAYS,
        str: TEXTS,
    }.get(shape, st.none())
