"""The usual conventions are those that the sources call usual, and nonsense is refused."""

import pytest

from shoots.lighting.core.conventions import USUAL, Conventions, Ratio
from shoots.values.units import OutOfRange


def test_usual_constants_lie_in_the_ranges_of_the_standard() -> None:
    """ISO 2720:1974: C 240 to 400 for a flat receptor, K 10.6 to 13.4."""
    assert 240 <= USUAL.meter_constant <= 400
    assert 10.6 <= USUAL.reflected_constant <= 13.4


def test_the_usual_ratio_counts_both_lights_on_the_lit_side() -> None:
    """US Army SS0510, pp. 1-18 and 1-19."""
    assert USUAL.ratio is Ratio.KEY_AND_FILL_TO_FILL


def test_a_constant_that_cannot_be_meant_is_refused() -> None:
    with pytest.raises(OutOfRange, match="meter_constant"):
        Conventions(meter_constant=2.5)
