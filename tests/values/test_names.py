"""Names of uploaded files (shoots.values.names)."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from shoots.values.names import safe_name


@given(st.text(max_size=200))
def test_a_safe_name_never_leaves_its_folder(name: str) -> None:
    safe = safe_name(name)
    assert 1 <= len(safe) <= 120
    assert not set(safe) & set('/\\<>:"|?*\x00\n\r')
    assert not safe.startswith(".")
