"""One typed line as a shot; the lines are our own."""

from __future__ import annotations

import pytest

from shoots.shotlist.core.lines import ShotLine, read_line


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("Pack on wet stone", ShotLine("Pack on wet stone")),
        ("Pack on wet stone 4:5", ShotLine("Pack on wet stone", ("4:5",))),
        ("Pack, 4:5, 9:16, 15 min", ShotLine("Pack", ("4:5", "9:16"), 15)),
        ("Pack 15 mins 4x5", ShotLine("Pack", ("4:5",), 15)),
        ("Runner, wish", ShotLine("Runner", is_wish=True)),
        ("Runner at the wall (maybe)", ShotLine("Runner at the wall", is_wish=True)),
        ("Three runners", ShotLine("Three runners")),
        ("Runner 2 of 3", ShotLine("Runner 2 of 3")),
        ("Run 5 minutes in, then rest", ShotLine("Run 5 minutes in, then rest")),
        ("Pack 999 min", ShotLine("Pack 999 min")),
        ("Banner for the site, landscape banner", ShotLine("Banner for the site", ("landscape banner",))),
        ("4:5", ShotLine("", ("4:5",))),
        ("   ", ShotLine("")),
    ],
)
def test_what_stands_at_the_end_is_taken_off_the_title(typed: str, read: ShotLine) -> None:
    assert read_line(typed) == read
