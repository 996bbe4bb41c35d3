"""A real browser for the journeys: Debian's Chromium, driven by Playwright, with a trace kept on failure."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

# Playwright's own event loop runs in the test's thread; the ORM is used beside it, never inside it.
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "true"

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@pytest.fixture(scope="session")
def chromium() -> Iterator[Any]:
    path = shutil.which("chromium")
    if path is None:
        pytest.skip("chromium is not installed")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        started = driver.chromium.launch(executable_path=path, args=FLAGS)
        yield started
        started.close()


@pytest.fixture
def page(chromium: Any, request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Any]:
    """A new page at a phone's or a desk's width; console errors and requests to other hosts fail the test."""
    context = chromium.new_context(viewport={"width": 1280, "height": 900}, accept_downloads=True, locale="en-GB")
    context.tracing.start(screenshots=True, snapshots=True)
    opened = context.new_page()
    opened.set_default_timeout(10_000)
    wrong: list[str] = []
    opened.on("console", lambda m: wrong.append(m.text) if m.type == "error" and "422" not in m.text else None)
    opened.on("pageerror", lambda e: wrong.append(str(e)))
    opened.on(
        "request",
        lambda r: (
            wrong.append(f"request to another host: {r.url}")
            if not r.url.startswith(("http://localhost", "http://127.0.0.1", "data:", "blob:"))
            else None
        ),
    )
    yield opened
    context.tracing.stop(path=str(tmp_path / "trace.zip"))
    context.close()
    assert wrong == []
