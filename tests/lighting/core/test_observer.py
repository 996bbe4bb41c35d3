"""The observer's table, against a colour library."""

import colour as science
import numpy as np
import pytest

from shoots.lighting.core.observer import OBSERVER_NM, OBSERVER_XYZ


def test_the_table_is_that_of_the_standard_observer() -> None:
    """Cross-check: colour-science's copy of the CIE 1931 2° observer."""
    cmfs = science.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"]
    for wavelength, row in zip(OBSERVER_NM, OBSERVER_XYZ, strict=True):
        assert row == pytest.approx(cmfs[float(wavelength)], rel=1e-5, abs=1e-9)


def test_equal_energy_is_white() -> None:
    """Definition: the three functions have equal areas (CIE)."""
    areas = np.trapezoid(OBSERVER_XYZ, OBSERVER_NM, axis=0)
    assert areas == pytest.approx([106.86] * 3, rel=1e-3)
