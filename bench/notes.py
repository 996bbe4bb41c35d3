"""Print precision and recall of the note reader for each field, and the time to read 10 kB of notes.

Of the quarter that was set aside before any tuning only the totals are shown. Run it from the project's root:
``python -m bench.notes``.
"""

from __future__ import annotations

import time
import tomllib
from pathlib import Path

from shoots.call.core.measure import measure, table
from shoots.call.core.reading import read_notes

FOLDER = Path(__file__).resolve().parents[1] / "fixtures/notes"
#: Tuned on, set aside before any tuning, written later while classes of fault were mended, and labelled for people,
#: things and places alone; and by people who had not seen the reader (tuned on since).
NAMES = ("tuning", "heldout", "later", "subjects", "blind")
BYTES = 10_000
#: Other work on the machine only makes a run longer, so the shortest says most.
RUNS = 7


def main() -> None:
    notes = {name: tomllib.loads((FOLDER / f"{name}.toml").read_text())["note"] for name in NAMES}
    for name, labelled in notes.items():
        print(f"{name}: {len(labelled)} notes")
        print(table(measure(labelled)[0]))
    some = notes["tuning"][0]
    text = "\n".join(note["text"] for note in notes["tuning"])[:BYTES]
    read_notes(text, called_on=some["called"], country=some["country"])
    seconds = []
    for _ in range(RUNS):
        began = time.perf_counter()
        read_notes(text, called_on=some["called"], country=some["country"])
        seconds.append(time.perf_counter() - began)
    print(f"{len(text)} characters read in {1000 * min(seconds):.0f} ms, best of {RUNS} (wanted: under 100)")


if __name__ == "__main__":
    main()
