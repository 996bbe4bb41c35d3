"""The rules of the layout that import-linter can't state."""

from __future__ import annotations

import importlib
import subprocess
import sys
from pathlib import Path

import grimp
import pytest
from django.apps import apps

from tests.architecture.layout import CONTRACTS, ROOT, ranks, slices

PYTHON_FILES = sorted(p for folder in ("shoots", "studio", "tests", "bench") for p in (ROOT / folder).rglob("*.py"))


def test_every_relation_points_downwards() -> None:
    height = ranks()
    wrong = []
    for model in apps.get_app_config("shoots").get_models():
        own = model.__module__.split(".")[1]
        for field in model._meta.get_fields():
            if not field.is_relation or field.auto_created or field.related_model is None:
                continue
            target = field.related_model.__module__.split(".")
            if target[0] == "shoots" and target[1] != own and height[own] <= height[target[1]]:
                wrong.append(f"{model.__name__}.{field.name} -> {field.related_model.__name__}")
    assert wrong == []


def test_every_slice_with_models_is_registered() -> None:
    register = (ROOT / "shoots/models.py").read_text()
    for slice_name in slices():
        if (ROOT / "shoots" / slice_name / "models.py").exists():
            assert f"shoots.{slice_name}.models" in register


def test_the_inner_contract_names_every_slice() -> None:
    assert sorted(CONTRACTS["inside"]["containers"]) == [f"shoots.{name}" for name in slices()]


def test_every_core_is_under_the_purity_contract() -> None:
    named = set(CONTRACTS["pure"]["source_modules"])
    found = {f"shoots.{path.parent.name}.core" for path in (ROOT / "shoots").glob("*/core")}
    found |= {f"shoots.{path.parent.name}.core" for path in (ROOT / "shoots").glob("*/core.py")}
    assert found <= named


def test_no_slice_imports_another_slices_edge() -> None:
    graph = grimp.build_graph("shoots")
    private = {"views", "forms", "tasks", "urls"}
    wrong = []
    for module in graph.modules:
        parts = module.split(".")
        if len(parts) < 3 or parts[1] in {"pages", "demo"} or parts[2] not in private:
            continue
        for importer in graph.find_modules_that_directly_import(module):
            theirs = importer.split(".")
            if theirs[1] != parts[1] and theirs[1] not in {"urls", "tasks"}:
                wrong.append(f"{importer} -> {module}")
    assert wrong == []


@pytest.mark.parametrize(
    "module",
    sorted(
        ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")
        for path in [*(ROOT / "shoots").glob("*/core/**/*.py"), *(ROOT / "shoots/values").glob("*.py")]
    ),
)
def test_each_core_module_is_importable(module: str) -> None:
    importlib.import_module(module)


def test_the_cores_import_without_django() -> None:
    modules = [
        ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")
        for path in [*(ROOT / "shoots").glob("*/core/*.py"), *(ROOT / "shoots/values").glob("*.py")]
    ]
    code = (
        "import importlib, sys\n"
        f"for name in {modules!r}: importlib.import_module(name)\n"
        "sys.exit('django' in sys.modules)\n"
    )
    assert subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=False).returncode == 0


def test_no_python_file_is_longer_than_500_lines() -> None:
    long = [
        str(p.relative_to(ROOT))
        for p in PYTHON_FILES
        if "migrations" not in p.parts and len(p.read_text().splitlines()) > 500
    ]
    assert long == []


def test_no_module_without_a_subject() -> None:
    names = {"utils.py", "helpers.py", "common.py", "services.py", "misc.py"}
    assert [str(p) for p in PYTHON_FILES if p.name in names] == []


def test_templates_lie_in_their_slices_folder() -> None:
    # account and allauth, bootstrap5: templates of libraries that ours stand in for.
    allowed = {*slices(), "layouts", "components", "documents", "mail", "account", "allauth", "bootstrap5", "desk"}
    folders = {p.name for p in (ROOT / "templates").iterdir() if p.is_dir()}
    assert folders <= allowed


def test_every_component_states_what_it_takes() -> None:
    for path in sorted((ROOT / "templates/components").glob("*.html")):
        head = path.read_text()[:600]
        assert "{% comment %}" in head, f"{path.name} does not state its arguments"


@pytest.mark.parametrize("pattern", ["style=", "onclick=", "<script>", "<style", "hx-on"])
def test_no_page_has_inline_script_or_style(pattern: str) -> None:
    found = [
        str(path.relative_to(ROOT))
        for path in (ROOT / "templates").rglob("*.html")
        if f" {pattern}" in path.read_text() or (pattern.startswith("<") and pattern in path.read_text())
    ]
    assert found == []


def test_init_files_hold_nothing_but_a_docstring() -> None:
    for path in (ROOT / "shoots").rglob("__init__.py"):
        lines = [line for line in path.read_text().splitlines() if line.strip()]
        assert not any(line.startswith(("import ", "from ")) for line in lines), path


def test_every_core_module_has_its_test() -> None:
    missing = []
    for path in (ROOT / "shoots").glob("*/core/*.py"):
        if path.name == "__init__.py":
            continue
        slice_name = path.parent.parent.name
        folder = ROOT / "tests" / slice_name / "core"
        text = "\n".join(p.read_text() for p in folder.glob("test_*.py"))
        if path.stem not in text:
            missing.append(str(Path(slice_name) / "core" / path.name))
    assert missing == []
