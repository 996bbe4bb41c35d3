"""A process that made a PDF ends without a word: fonts and style sheets are let go before WeasyPrint is taken apart."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
MAKE = """
import django
django.setup()
from shoots.documents import adapters
link = '<link rel="stylesheet" href="static://shoots/document.css">'
made = adapters.pdf_of(f'<!doctype html><html lang="en"><head><title>x</title>{link}</head><body>x</body></html>')
print(made.pages)
"""


def test_a_process_that_made_a_document_ends_quietly(tmp_path: Path) -> None:
    environment = {**os.environ, "DATA_DIR": str(tmp_path), "DJANGO_SETTINGS_MODULE": "studio.settings"}
    done = subprocess.run(
        [sys.executable, "-c", MAKE], cwd=ROOT, env=environment, capture_output=True, text=True, check=True, timeout=120
    )
    assert (done.stdout.strip(), done.stderr) == ("1", "")
