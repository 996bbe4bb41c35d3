"""Picture files opened with care (shoots.images.adapters): formats, turned, tagged, odd and hostile ones."""

from __future__ import annotations

import colour
import numpy as np
import pytest
import pyvips

from shoots.images import adapters
from shoots.mood.core.lab import delta_e_2000, lab_of_srgb
from tests.mood.files import huge_png, jpeg, of_array, picture

D50 = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D50"]


def look(data: bytes) -> adapters.Seen:
    return adapters.look_at(data, preview_px=200, measured_px=100)


def lab(seen: adapters.Seen) -> np.ndarray:
    return seen.lab if seen.lab is not None else lab_of_srgb(seen.srgb)  # type: ignore[arg-type]


def flat(*bands: int, width: int = 64, height: int = 48) -> pyvips.Image:
    return of_array(np.broadcast_to(np.array(bands, np.uint8), (height, width, len(bands))).copy())


@pytest.mark.parametrize(("ending", "kind"), [("jpg", "JPEG"), ("png", "PNG"), ("tif", "TIFF"), ("webp", "WEBP")])
def test_every_format_is_known_by_its_first_bytes_and_decoded(ending: str, kind: str) -> None:
    data = picture("bright").write_to_buffer(f".{ending}")
    head = adapters.header(data, taken=adapters.CONTENT_TYPES)
    assert (head.format, head.width_px, head.height_px, head.frames) == (kind, 240, 160, 1)
    assert lab(look(data))[..., 0].mean() == pytest.approx(float(lab_of_srgb(np.full(3, 232, np.uint8))[0]), abs=0.5)


def test_a_delivered_picture_may_be_no_webp() -> None:
    data = picture().write_to_buffer(".webp")
    with pytest.raises(adapters.NotAPicture):
        adapters.probe(data)


def test_a_picture_turned_by_the_camera_s_note_is_measured_upright() -> None:
    """The upper half is dark; orientation 6 says: turn by a quarter clockwise to see it upright."""
    upright = np.full((60, 40, 3), 230, np.uint8)
    upright[:30] = 10
    stored = of_array(np.rot90(upright, 1)).copy()
    stored.set_type(pyvips.GValue.gint_type, "orientation", 6)
    data = bytes(stored.jpegsave_buffer(Q=95))
    head = adapters.header(data, taken=adapters.CONTENT_TYPES)
    assert (head.width_px, head.height_px) == (40, 60)
    light = lab(look(data))[..., 0]
    assert light.shape == (60, 40)
    assert light[:25].mean() < 10 < 80 < light[35:].mean()
    shown = pyvips.Image.new_from_buffer(look(data).preview, "")
    assert (shown.width, shown.height) == (40, 60)


def test_an_embedded_profile_is_respected() -> None:
    """The same numbers mean another colour under a wider profile; which, colour-science says."""
    coded = (90, 200, 80)
    tagged = bytes(flat(*coded).tiffsave_buffer(profile="p3"))
    plain = bytes(flat(*coded).tiffsave_buffer())
    wide = colour.RGB_COLOURSPACES["Display P3"]
    xyz = colour.RGB_to_XYZ(
        np.array(coded) / 255, wide, illuminant=D50, chromatic_adaptation_transform="Bradford", apply_cctf_decoding=True
    )
    expected = colour.XYZ_to_Lab(xyz, D50)
    found = lab(look(tagged)).reshape(-1, 3).mean(axis=0)
    assert delta_e_2000(found.astype(float), expected) < 1.0
    assert delta_e_2000(lab(look(plain)).reshape(-1, 3).mean(axis=0).astype(float), expected) > 2.0


def test_grey_sixteen_bits_and_one_bit_are_read_as_what_they_show() -> None:
    grey = bytes(flat(128).pngsave_buffer())
    deep = bytes(
        (flat(128, 128, 128).cast("ushort") * 257).cast("ushort").copy(interpretation="rgb16").pngsave_buffer()
    )
    mid = float(lab_of_srgb(np.full(3, 128, np.uint8))[0])
    for data in (grey, deep):
        assert lab(look(data))[..., 0].mean() == pytest.approx(mid, abs=0.3)
    black_and_white = bytes(flat(255).pngsave_buffer(bitdepth=1))
    assert lab(look(black_and_white))[..., 0].mean() == pytest.approx(100, abs=0.1)


def test_cmyk_without_a_profile_is_read_with_a_general_one() -> None:
    ink = of_array(np.broadcast_to(np.array([0, 255, 255, 0], np.uint8), (48, 64, 4)).copy()).copy(
        interpretation="cmyk"
    )
    seen = look(bytes(ink.tiffsave_buffer()))
    light, a, b = lab(seen).reshape(-1, 3).mean(axis=0)
    assert seen.opaque is None
    assert a > 40 and b > 20 and 30 < light < 65  # magenta and yellow ink: red
    assert pyvips.Image.new_from_buffer(seen.preview, "").bands == 3


def test_transparent_points_are_marked_and_the_preview_has_none() -> None:
    data = np.full((48, 64, 4), 200, np.uint8)
    data[:, :32, 3] = 0
    data[:, 32:, 3] = 255
    seen = look(bytes(of_array(data).pngsave_buffer()))
    assert seen.opaque is not None
    assert seen.opaque[:, 40:].all() and not seen.opaque[:, :24].any()
    assert pyvips.Image.new_from_buffer(seen.preview, "").bands == 3


def test_of_an_animation_and_of_pages_the_first_is_taken_and_all_are_counted() -> None:
    frames = pyvips.Image.arrayjoin([flat(250, 250, 250), flat(0, 0, 0), flat(9, 90, 200)], across=1)
    frames = frames.copy()
    frames.set_type(pyvips.GValue.gint_type, "page-height", 48)
    for ending in (".webp", ".tif"):
        data = frames.write_to_buffer(ending)
        assert adapters.header(data, taken=adapters.CONTENT_TYPES).frames == 3
        assert lab(look(data))[..., 0].min() > 90


def test_what_must_be_unpacked_as_a_whole_is_known_by_its_header() -> None:
    found = [
        adapters.header(data, taken=adapters.CONTENT_TYPES).is_interlaced
        for data in (jpeg(), jpeg(interlace=True), bytes(picture().pngsave_buffer(interlace=True)))
    ]
    assert found == [False, True, True]


def test_a_huge_picture_is_refused_by_its_header_alone() -> None:
    with pytest.raises(adapters.TooLarge) as refused:
        adapters.header(huge_png(), taken=adapters.CONTENT_TYPES)
    assert refused.value.args == (30_000,)
    with pytest.raises(adapters.TooManyPixels) as many:
        adapters.header(huge_png(12_000), taken=adapters.CONTENT_TYPES, most_megapixels=100)
    assert many.value.args[0] == pytest.approx(144)


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"GIF89a" + b"\0" * 40,
        b"<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'/>",
        b"\xff\xd8\xff and then words",
        b"RIFF\x10\0\0\0WEBPwords",
        b"II*\0" + b"\xff" * 64,
        b"%PDF-1.7",
    ],
)
def test_what_is_no_picture_whatever_it_says_is_refused(data: bytes) -> None:
    with pytest.raises(adapters.NotAPicture):
        adapters.header(data, taken=adapters.CONTENT_TYPES)


def test_a_cut_off_file_is_found_when_it_is_looked_at() -> None:
    for whole in (jpeg(seed=4), jpeg(seed=4, interlace=True), bytes(picture().pngsave_buffer())):
        cut = whole[: len(whole) // 2]
        assert adapters.header(cut, taken=adapters.CONTENT_TYPES).format in {"JPEG", "PNG"}
        with pytest.raises(adapters.NotAPicture):
            look(cut)


def test_a_small_picture_is_not_enlarged_and_one_point_is_enough() -> None:
    assert lab(look(bytes(flat(10, 20, 30, width=5, height=3).pngsave_buffer()))).shape == (3, 5, 3)
    assert lab(look(bytes(flat(10, 20, 30, width=1, height=1).pngsave_buffer()))).shape == (1, 1, 3)


def test_a_very_long_picture_keeps_at_least_one_line() -> None:
    assert lab(look(bytes(flat(10, 20, 30, width=9000, height=2).pngsave_buffer()))).shape[1] == 100
