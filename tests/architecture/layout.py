"""The layer list of pyproject.toml, read once for the tests beside it."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
PYPROJECT: dict[str, Any] = tomllib.loads((ROOT / "pyproject.toml").read_text())
CONTRACTS = {c["id"]: c for c in PYPROJECT["tool"]["importlinter"]["contracts"]}
REGISTERS = {"apps", "models", "urls", "tasks", "management", "templatetags", "demo", "pages", "values"}


def ranks() -> dict[str, int]:
    """Return each slice's height: 0 at the bottom; siblings share one."""
    layers = list(reversed(CONTRACTS["slices"]["layers"]))
    return {name.strip(" ()"): height for height, layer in enumerate(layers) for name in layer.split("|")}


def slices() -> list[str]:
    """Return the names of the slices: the folders of `shoots` that are no register."""
    return sorted(name for name in ranks() if name not in REGISTERS)
