"""The shapes that the door for scripts takes, written out: fields with units and defaults, and named values.

What a field means is read from its class's docstring, so that it cannot be said twice.

References
----------
Own arrangement; numpydoc's sections for the form of the docstrings.
"""

import ast
import dataclasses
import inspect
import itertools
import re
import textwrap
import typing
from collections.abc import Iterable
from enum import Enum
from typing import Any

from shoots.lighting.core.codec import KINDS, encode, type_name


class SameName(TypeError):
    """Raised when two shapes of the door are called alike."""


NOT_GIVEN = {"because"}
"""Fields that the core fills in itself."""
_ATTRIBUTE = re.compile(r"^(?P<names>\w+(?:, \w+)*) : ")
_UNIT = re.compile(r"\s*\[([^\[\]]+)\]\s*$")


def described_shapes(roots: Iterable[Any]) -> dict[str, Any]:
    """Return every object and every set of named values that some shapes are made of.

    Parameters
    ----------
    roots : Iterable[Any]
        Type annotations of the core.

    Returns
    -------
    dict[str, Any]
        By name: what it means; for an object its ``fields`` with shape, unit, meaning and default, and the starting
        ``kinds`` that may be given by name instead; for named values their ``values``, and under ``meanings`` what is
        said of each.

    Raises
    ------
    SameName
        If two different shapes are called alike, of which a reader would then see one only.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> from shoots.kit.core.lamps import Circuit
    >>> described_shapes([Circuit])["Circuit"]["values"]
    ['VOLTAGE', 'CUT_OFF']
    """
    found: dict[str, Any] = {}
    classes: dict[str, Any] = {}
    waiting = list(roots)
    while waiting:
        shape = waiting.pop(0)
        inner = [one for one in typing.get_args(shape) if one is not Ellipsis]
        if inner:
            waiting += inner
        elif inspect.isclass(shape) and (issubclass(shape, Enum) or dataclasses.is_dataclass(shape)):
            if classes.setdefault(shape.__name__, shape) is not shape:
                raise SameName(shape.__name__)
            if shape.__name__ in found:
                continue
            if issubclass(shape, Enum):
                found[shape.__name__] = _named_values(shape)
            else:
                hints = typing.get_type_hints(shape)
                found[shape.__name__] = _described(shape, hints)
                waiting += [hints[field.name] for field in dataclasses.fields(shape) if field.name not in NOT_GIVEN]
    return dict(sorted(found.items()))


def _named_values(shape: type[Enum]) -> dict[str, Any]:
    """Return the values of an enum, and what the texts below them in its source say."""
    body = ast.parse(textwrap.dedent(inspect.getsource(shape))).body[0]
    meanings: dict[str, str] = {}
    for above, below in itertools.pairwise(body.body if isinstance(body, ast.ClassDef) else []):
        if not (isinstance(above, ast.Assign) and isinstance(above.targets[0], ast.Name)):
            continue
        if isinstance(below, ast.Expr) and isinstance(below.value, ast.Constant):
            meanings[str(shape[above.targets[0].id].value)] = " ".join(str(below.value.value).split())
    return {"meaning": _summary(shape), "values": [one.value for one in shape], "meanings": meanings}


def _summary(shape: Any) -> str:
    return " ".join((inspect.getdoc(shape) or "").partition("\n\n")[0].split())


def _described(shape: Any, hints: dict[str, Any]) -> dict[str, Any]:
    meanings = _meanings(inspect.getdoc(shape) or "")
    fields = []
    for field in dataclasses.fields(shape):
        if field.name in NOT_GIVEN:
            continue
        meaning = meanings.get(field.name, "")
        unit = _UNIT.search(meaning)
        required = field.default is dataclasses.MISSING and field.default_factory is dataclasses.MISSING
        entry: dict[str, Any] = {
            "name": field.name,
            "shape": type_name(hints[field.name]),
            "unit": unit[1] if unit else "",
            "meaning": _UNIT.sub("", meaning),
            "required": required,
        }
        if field.default_factory is not dataclasses.MISSING:
            entry["default"] = encode(field.default_factory())
        elif not required:
            entry["default"] = encode(field.default)
        fields.append(entry)
    described: dict[str, Any] = {"meaning": _summary(shape), "fields": fields}
    if shape in KINDS:
        described["kinds"] = list(KINDS[shape])
    return described


def _meanings(text: str) -> dict[str, str]:
    """Return what a docstring says of each attribute."""
    found: dict[str, str] = {}
    names: list[str] = []
    for line in text.partition("Attributes\n")[2].splitlines():
        match = _ATTRIBUTE.match(line)
        if match:
            names = match["names"].split(", ")
            found.update(dict.fromkeys(names, ""))
        elif line.startswith(" "):
            for name in names:
                found[name] = f"{found[name]} {line.strip()}".strip()
    return found
