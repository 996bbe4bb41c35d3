"""The door for scripts: ``manage.py readnotes`` (shoots.management.commands.readnotes)."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from django.core.management import CommandError, call_command

from shoots.call.core.reading import LONGEST_NOTES

DOCS = Path(__file__).resolve().parents[2] / "docs/readnotes.md"


def read(capsys: Any, path: Path, *more: str) -> dict[str, Any]:
    call_command("readnotes", str(path), "--called", "2026-05-14", "--country", "GB", *more)
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


def test_it_prints_json_with_a_span_for_every_entry(tmp_path: Path, capsys: Any) -> None:
    text = "10\u201312 finals\r\n4 locations?? no, 2\r\nfive all in"
    path = tmp_path / "notes.txt"
    path.write_bytes(text.encode())
    found = read(capsys, path)
    assert (found["finals"]["min"], found["finals"]["max"]) == (10, 12)
    assert [text[slice(*entry["span"])] for entry in found["money"]] == ["five all in"]
    locations = next(entry for entry in found["counts"] if entry["of"] == "locations")
    assert [text[slice(*span)] for span in (locations["span"], *locations["corrects"])] == ["2", "4 locations"]


def test_bytes_that_are_no_text_lose_only_themselves(tmp_path: Path, capsys: Any) -> None:
    path = tmp_path / "notes.txt"
    path.write_bytes(b"\xef\xbb\xbf12 finals \xff\x00 4:5")
    found = read(capsys, path)
    assert (found["finals"]["max"], found["shapes"][0]["shape"]) == (12, "4:5")


def test_an_empty_file_gives_every_key_and_nothing_in_them(tmp_path: Path, capsys: Any) -> None:
    path = tmp_path / "notes.txt"
    path.write_text("")
    found = read(capsys, path)
    assert found["finals"] is None and found["money"] == [] and found["mood"] == "unknown"


def test_a_folder_of_own_words_is_read_too(tmp_path: Path, capsys: Any) -> None:
    (tmp_path / "own.toml").write_text('[placement.point_of_sale]\nwords = ["fridge door"]')
    path = tmp_path / "notes.txt"
    path.write_text("for fridge door and press")
    assert [p["placement"] for p in read(capsys, path)["placements"]] == ["press"]
    more = read(capsys, path, "--words", str(tmp_path))
    assert [p["placement"] for p in more["placements"]] == ["point of sale", "press"]


@pytest.mark.parametrize("text", ["[place", "place = 3"])
def test_words_that_cannot_be_used_are_said_so(tmp_path: Path, text: str) -> None:
    (tmp_path / "own.toml").write_text(text)
    path = tmp_path / "notes.txt"
    path.write_text("press")
    with pytest.raises(CommandError, match="can't be used"):
        call_command("readnotes", str(path), "--words", str(tmp_path))


def test_a_file_that_is_not_there_is_said_so(tmp_path: Path) -> None:
    with pytest.raises(CommandError, match="Can't read"):
        call_command("readnotes", str(tmp_path / "none.txt"))


def test_far_too_long_notes_are_said_so_with_both_numbers(tmp_path: Path) -> None:
    path = tmp_path / "notes.txt"
    path.write_text("x" * (LONGEST_NOTES + 1))
    with pytest.raises(CommandError, match=f"{LONGEST_NOTES + 1} characters; at most {LONGEST_NOTES}"):
        call_command("readnotes", str(path))


def test_the_example_of_the_documentation_is_what_is_printed(tmp_path: Path, capsys: Any) -> None:
    parts = DOCS.read_text(encoding="utf-8").split("```")
    notes = next(part.removeprefix("text\n") for part in parts if part.startswith("text\n"))
    shown = json.loads(next(part.removeprefix("json\n") for part in parts if part.startswith("json\n")))
    path = tmp_path / "notes.txt"
    path.write_text(notes.rstrip("\n"), encoding="utf-8")
    found = read(capsys, path)
    assert {key: found[key] for key in shown} == shown
