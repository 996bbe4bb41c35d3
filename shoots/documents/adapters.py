"""HTML to PDF, and the store that finished files lie in."""

from __future__ import annotations

import atexit
import functools
import hashlib
import mimetypes
import secrets
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from urllib.parse import unquote, urlsplit

from django.contrib.staticfiles import finders
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.template.loader import render_to_string
from django.utils import translation


@dataclass(frozen=True)
class MadePdf:
    """A PDF's bytes, its SHA-256 in hexadecimal, and its number of pages."""

    data: bytes
    sha256: str
    pages: int


STYLE_SHEET = "shoots/document.css"
_LINK = f'<link rel="stylesheet" href="static://{STYLE_SHEET}">'


@functools.cache
def _style_sheet(source: bytes) -> Any:
    """Return our style sheet, parsed; a process parses each state of it once, not once a document."""
    import weasyprint

    return weasyprint.CSS(
        string=source.decode(), base_url="static://", url_fetcher=_fetcher(), font_config=_font_configuration()
    )


@atexit.register
def _forget() -> None:
    """Let fonts and style sheets go while WeasyPrint still stands; in the interpreter's own end it is taken apart first
    and complains."""
    _style_sheet.cache_clear()
    _font_configuration.cache_clear()


def _style_source() -> bytes:
    with open(str(finders.find(STYLE_SHEET)), "rb") as handle:  # noqa: PTH123
        return handle.read()


@functools.cache
def _font_configuration() -> Any:
    """Return the one font configuration of this process: fonts are read once, not once a document."""
    from weasyprint.text.fonts import FontConfiguration

    return FontConfiguration()


def _fetcher() -> Any:
    """Return a fetcher that opens our own static files and stored previews, and nothing else."""
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class OwnFiles(URLFetcher):
        def fetch(self, url: str, headers: Any = None) -> Any:
            parts = urlsplit(url)
            if parts.scheme == "data":
                return super().fetch(url, headers)
            path = unquote(parts.path)
            if parts.scheme == "static":
                found = finders.find(parts.netloc + path)
                if not isinstance(found, str):
                    raise ValueError(f"No static file {path}")
                with open(found, "rb") as handle:  # noqa: PTH123
                    return URLFetcherResponse(url, body=handle.read(), headers=_type_of(path))
            if parts.scheme == "stored":
                with default_storage.open(parts.netloc + path) as handle:
                    return URLFetcherResponse(url, body=handle.read(), headers=_type_of(path))
            raise ValueError("Documents fetch nothing from outside")

    return OwnFiles(allowed_protocols=("data", "static", "stored"))


def _type_of(path: str) -> dict[str, str]:
    """Return the header that tells a style sheet from a picture; without it WeasyPrint takes neither."""
    return {"Content-Type": mimetypes.guess_type(path)[0] or "application/octet-stream"}


def html_of(template: str, content: dict[str, Any], *, language: str = "en-gb") -> str:
    """Return a document's HTML from its frozen content."""
    with translation.override(language):
        return render_to_string(template, {"document": content})


def pdf_of(html: str) -> MadePdf:
    """Return a tagged PDF; takes about a fifth of a second warm. Never call it inside a transaction."""
    import weasyprint

    bare = html.replace(_LINK, "", 1)
    sheets = [_style_sheet(_style_source())] if bare != html else []
    made = weasyprint.HTML(string=bare, base_url="static://", url_fetcher=_fetcher()).render(
        stylesheets=sheets, font_config=_font_configuration(), pdf_variant="pdf/ua-1"
    )
    data = made.write_pdf(pdf_variant="pdf/ua-1")
    return MadePdf(data=data, sha256=hashlib.sha256(data).hexdigest(), pages=len(made.pages))


def sha256_of_source(html: str) -> str:
    """Return what tells whether a PDF would look otherwise: the SHA-256 of its HTML and of our style sheet.

    Stored pictures are named in the HTML, and never change under their keys.
    """
    return hashlib.sha256(html.encode() + _style_source()).hexdigest()


def store(data: bytes, *, folder: str, suffix: str) -> str:
    """Keep bytes under an opaque key and return the key."""
    return str(default_storage.save(f"{folder}/{secrets.token_hex(16)}{suffix}", ContentFile(data)))


def discard(storage_key: str) -> None:
    """Remove a stored file; nothing happens if it is gone."""
    default_storage.delete(storage_key)


def read(storage_key: str) -> Any:
    """Open a stored file for reading; the caller closes it."""
    return default_storage.open(storage_key, "rb")


def stored_before(folder: str, *, before: datetime) -> Iterator[str]:
    """Yield the keys of a folder's files that were stored before a moment, as a sweep for orphans needs them."""
    try:
        names = default_storage.listdir(folder)[1]
    except FileNotFoundError:  # nothing was ever stored there
        return
    for name in names:
        key = f"{folder}/{name}"
        if default_storage.get_modified_time(key) < before:
            yield key
