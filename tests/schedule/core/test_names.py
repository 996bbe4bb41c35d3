"""Whether a shot names somebody: own reading, no source."""

from __future__ import annotations

import pytest

from shoots.schedule.core.names import is_named


@pytest.mark.parametrize(
    ("text", "name", "named"),
    [
        ("Leo", "Leo Strand", True),
        ("leo, from behind", "Leo Strand", True),
        ("Leo's hands", "Leo Strand", True),
        ("Leo’s hands", "Leo Strand", True),
        ("the runner LEO  STRAND", "Leo Strand", True),
        ("Leonie", "Leo Strand", False),
        ("a runner", "Leo Strand", False),
        ("", "Leo Strand", False),
        ("Leo", "", False),
        ("Anne-Marie and a dog", "Anne-Marie Voss", True),
        ("Anne", "Anne-Marie Voss", False),
    ],
)
def test_a_first_or_whole_name_names_somebody(text: str, name: str, named: bool) -> None:
    assert is_named(text, name) is named
