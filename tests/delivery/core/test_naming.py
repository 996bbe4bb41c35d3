"""Names of finished pictures (shoots.delivery.core.naming). Source: common practice, no source, where none is named."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.delivery.core.naming import shot_number_in, without_doubles


@pytest.mark.parametrize(
    ("name", "number"),
    [
        ("03-rim.jpg", 3),
        ("3.jpg", 3),
        ("shot 12b final.tif", 12),
        ("Shot_007.png", 7),
        ("_MG_4211.jpg", None),
        ("DSC04211.jpg", None),
        ("2026-06-09 rim.jpg", None),
        ("rim.jpg", None),
        ("0.jpg", None),
    ],
)
def test_the_number_at_the_start_is_the_shots(name: str, number: int | None) -> None:
    assert shot_number_in(name) == number


@given(st.lists(st.sampled_from(["a.jpg", "A.jpg", "a (2).jpg", "b", "b.tif"]), max_size=12))
def test_no_name_stands_twice_in_an_archive(names: list[str]) -> None:
    result = without_doubles(names)
    assert len(result) == len(names)
    assert len({name.casefold() for name in result}) == len(names)
