"""Bodies, lenses and filters keep their limits in order."""

import pytest

from shoots.kit.core.cameras import CameraSpec, FilterSpec, LensSpec
from shoots.values.units import OutOfRange


def test_a_full_frame_sensor_has_its_diagonal_and_pitch() -> None:
    camera = CameraSpec(width_mm=36.0, height_mm=24.0, width_px=6000)
    assert camera.diagonal_mm == pytest.approx(43.267, abs=0.001)
    assert camera.pitch_mm == pytest.approx(0.006)


@pytest.mark.parametrize(
    ("wrong", "name"),
    [
        (lambda: CameraSpec(width_mm=0.0), "width_mm"),
        (lambda: CameraSpec(top_iso=50.0), "top_iso"),
        (lambda: CameraSpec(slowest_s=1 / 16000), "slowest_s"),
        (lambda: CameraSpec(sync_s=0.0), "sync_s"),
        (lambda: LensSpec(0.0), "focal_mm"),
        (lambda: LensSpec(50.0, widest=22.0, narrowest=16.0), "narrowest"),
        (lambda: LensSpec(50.0, closest_m=0.0), "closest_m"),
        (lambda: FilterSpec(-1.0), "stops"),
    ],
)
def test_cameras_that_cannot_be_meant_are_named(wrong: object, name: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        wrong()  # type: ignore[operator]
    assert caught.value.name == name
