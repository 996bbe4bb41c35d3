"""Every public function of a core documents its parameters, their units, and a source."""

from __future__ import annotations

import importlib
import inspect
import re
import typing
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from numpydoc.docscrape import FunctionDoc

ROOT = Path(__file__).resolve().parents[2]
UNIT = re.compile(r"\[[^\]]+\]")


def core_functions() -> Iterator[tuple[str, Callable[..., Any]]]:
    """Yield every public function that a core module defines itself."""
    paths = [*(ROOT / "shoots").glob("*/core/*.py"), *(ROOT / "shoots/values").glob("*.py")]
    for path in sorted(paths):
        if path.name == "__init__.py":
            continue
        name = ".".join(path.relative_to(ROOT).with_suffix("").parts)
        module = importlib.import_module(name)
        for attribute, value in vars(module).items():
            if inspect.isfunction(value) and value.__module__ == name and not attribute.startswith("_"):
                yield f"{name}.{attribute}", value


FUNCTIONS = dict(core_functions())


@pytest.mark.parametrize("name", FUNCTIONS)
def test_parameters_are_documented_with_units(name: str) -> None:
    function = FUNCTIONS[name]
    doc = FunctionDoc(function)
    assert doc["Summary"], f"{name} has no docstring"
    documented = {part.strip(): entry for entry in doc["Parameters"] for part in entry.name.split(",")}
    hints = typing.get_type_hints(function)
    for parameter in inspect.signature(function).parameters:
        bare = parameter.lstrip("*")
        entry = documented.get(bare) or documented.get(f"*{bare}") or documented.get(f"**{bare}")
        assert entry is not None, f"{name}: {bare} is not documented"
        if hints.get(bare) is float:
            assert UNIT.search(" ".join(entry.desc)), f"{name}: {bare} has no [unit]"
    if hints.get("return") is float:
        assert UNIT.search(" ".join(" ".join(entry.desc) for entry in doc["Returns"])), f"{name}: no unit returned"


@pytest.mark.parametrize("name", FUNCTIONS)
def test_a_source_is_named(name: str) -> None:
    function = FUNCTIONS[name]
    module_doc = inspect.getmodule(function).__doc__ or ""  # type: ignore[union-attr]
    text = f"{function.__doc__}\n{module_doc}".lower()
    assert any(word in text for word in ("references", "source", "own derivation", "common practice", "from memory")), (
        name
    )
