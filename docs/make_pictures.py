"""Make the pictures of the README from the demo: `.venv/bin/python docs/make_pictures.py`.

It starts the program with a fresh demo in a folder of its own, waits until the worker has made the documents, takes
screenshots with Debian's chromium, and stops it again. Needs the packages of requirements-dev.txt.
"""

from __future__ import annotations

import os
import signal
import subprocess
import tempfile
import time
import tomllib
import urllib.error
import urllib.request
from pathlib import Path
from typing import Any

import pdfplumber
from playwright.sync_api import sync_playwright

ROOT = Path(__file__).resolve().parents[1]
PICTURES = ROOT / "docs/pictures"
PORT = 8790
SITE = f"http://127.0.0.1:{PORT}"
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"]
#: The demo's main job; its code depends on the year, so it is found by its title.
TITLE = "Packs for bad weather"


def wait_until(is_so: Any, *, seconds: int) -> None:
    until = time.monotonic() + seconds
    while not is_so():
        if time.monotonic() > until:
            raise SystemExit(f"Waited {seconds} s in vain.")
        time.sleep(0.5)


def is_up() -> bool:
    try:
        return bool(urllib.request.urlopen(f"{SITE}/healthy", timeout=2).status == 200)
    except (urllib.error.URLError, OSError):
        return False


def main() -> None:
    PICTURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        surroundings = {**os.environ, "DATA_DIR": folder}
        program = subprocess.Popen(
            ["bash", "script/start", "--port", str(PORT)], cwd=ROOT, env=surroundings, start_new_session=True
        )
        try:
            wait_until(is_up, seconds=180)
            code = photograph()
            sheet = Path(folder) / "sheet.pdf"
            command = [".venv/bin/python", "manage.py", "callsheet", code, "-o", str(sheet)]
            subprocess.run(command, cwd=ROOT, env=surroundings, check=True)
            with pdfplumber.open(sheet) as pdf:
                pdf.pages[0].to_image(resolution=110).save(PICTURES / "callsheet.png", quantize=False)
        finally:
            os.killpg(program.pid, signal.SIGTERM)
            program.wait(timeout=30)


def photograph() -> str:
    """Take the screenshots and return the main shoot's code."""
    facts = tomllib.loads((ROOT / "fixtures/demo/scenario.toml").read_text())
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path="/usr/bin/chromium", args=FLAGS)
        page = browser.new_page(viewport={"width": 1280, "height": 860}, color_scheme="light", locale="en-GB")
        page.goto(f"{SITE}/sign-in/login/")
        page.fill("input[type=email]", facts["members"][0]["email"])
        page.fill("input[type=password]", facts["password"])
        page.click("main button[type=submit]")
        page.goto(f"{SITE}/shoots/")
        page.get_by_role("link", name=TITLE).first.click()
        address = page.url
        code = address.rstrip("/").rpartition("/")[2]

        def documents_are_made() -> bool:
            page.goto(address)
            return page.get_by_text("being made").count() == 0

        wait_until(documents_are_made, seconds=120)
        take(page, "/", "home")
        take(page, f"/shoots/{code}/", "shoot")
        take(page, f"/shoots/{code}/shots/", "shots")
        page.goto(f"{SITE}/shoots/{code}/light/")
        page.get_by_role("link", name="North rim").first.click()
        page.wait_for_load_state("networkidle")
        page.screenshot(path=PICTURES / "light.png")
        take(page, f"/shoots/{code}/call/", "call")
        take(page, f"/shoots/{code}/moods/", "mood")
        take(page, f"/shoots/{code}/shots/promised/", "promised")
        phone = browser.new_context(
            storage_state=page.context.storage_state(), viewport={"width": 390, "height": 844}, locale="en-GB"
        )
        take(phone.new_page(), f"/shoots/{code}/", "phone")
        browser.close()
    return code


def take(page: Any, path: str, name: str) -> None:
    page.goto(f"{SITE}{path}")
    page.wait_for_load_state("networkidle")
    page.screenshot(path=PICTURES / f"{name}.png")


if __name__ == "__main__":
    main()
