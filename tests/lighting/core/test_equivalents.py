"""Settings that expose alike."""

from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core import equivalents, scales
from shoots.lighting.core.exposure import ev100
from shoots.lighting.core.scales import Steps


def test_equivalent_settings_keep_the_level_and_leave_out_what_the_camera_lacks() -> None:
    """1.6: camera handbook table, exact series, EV 14."""
    full = equivalents.equivalent_settings(
        14.0,
        100.0,
        scales.aperture_scale(Steps.FULL),
        scales.marks_between(30, 1 / 4000, scales.shutter_scale(Steps.FULL)),
    )
    pairs = [(one.aperture.label, one.shutter.label) for one in full]
    assert ("2.8", "1/2000") in pairs
    assert ("22", "1/30") in pairs
    assert pairs[0] == ("2.0", "1/4000")
    assert max(abs(one.error_stops) for one in full) < 1e-9


@given(st.floats(-4.0, 18.0), st.sampled_from([100.0, 400.0, 1600.0]), st.sampled_from(list(Steps)))
def test_every_pair_of_a_chain_exposes_the_same_level(level: float, iso: float, steps: Steps) -> None:
    for one in equivalents.equivalent_exposures(level, iso, steps):
        assert abs(ev100(one.aperture.exact, one.shutter.exact, iso) + one.error_stops - level) < 1e-9
        assert abs(one.error_stops) <= 1 / 6 + 1e-9
