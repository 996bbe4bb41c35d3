"""The studio's own words for reading notes: TOML files in a folder of the data directory."""

from __future__ import annotations

import logging
from pathlib import Path

from django.conf import settings

from shoots.call.core.lexicons import BadLexicon, Lexicons, merged, package_lexicons

log = logging.getLogger(__name__)


def lexicons() -> Lexicons:
    """Return the program's words with those of ``WORDS_DIR`` added; a file that is no good is left out and logged."""
    own = tuple(text for path in _files() if (text := _text(path)) is not None)
    return package_lexicons(own) if own else package_lexicons()


def _files() -> list[Path]:
    folder = Path(settings.WORDS_DIR)
    return sorted(folder.glob("*.toml")) if folder.is_dir() else []


def _text(path: Path) -> str | None:
    try:
        text = path.read_text(encoding="utf-8")
        merged([text])
    except (OSError, UnicodeDecodeError, BadLexicon) as error:
        log.warning("The words in %s are left out: %s", path, error)
        return None
    return text
