"""What the studio means by its numbers is settled once and used by pages and core alike."""

from __future__ import annotations

import math
from datetime import date

import pytest
from django.urls import reverse

from shoots.lighting.core.conventions import USUAL, Ratio, Receptor, Series
from shoots.lighting.queries import pages
from shoots.lighting.queries.conventions import conventions_of_studio
from shoots.members.models import Studio
from shoots.places.core.sun import Altitude
from shoots.places.queries import light_of, sun_limits
from shoots.trail.models import Entry
from tests import factories
from tests.lighting.factories import make_lit_setup

ADDRESS = "light_conventions"


def typed(**changes):
    return {
        "version": 1,
        "receptor": "FLAT",
        "meter_constant": "250",
        "dome_constant": "330",
        "reflected_constant": "12.5",
        "lighting_ratio": "KEY_AND_FILL_TO_FILL",
        "low_sun_from_deg": "-4",
        "low_sun_to_deg": "6",
        "sun_altitude": "GEOMETRIC",
        "series": "EXACT",
        **changes,
    }


def test_a_studio_that_settled_nothing_has_the_usual_ones(studio) -> None:
    assert conventions_of_studio(studio) == USUAL


@pytest.mark.parametrize(
    ("field", "kind"),
    [("receptor", Receptor), ("lighting_ratio", Ratio), ("sun_altitude", Altitude), ("series", Series)],
)
def test_what_can_be_chosen_is_what_the_core_knows(field, kind) -> None:
    assert {key for key, _words in Studio._meta.get_field(field).choices} == {one.value for one in kind}


def test_everything_is_settled_on_one_page_with_a_trail(browser, studio) -> None:
    changes = typed(
        receptor="DOME", dome_constant="340", reflected_constant="14", lighting_ratio="KEY_TO_FILL",
        low_sun_from_deg="-2", low_sun_to_deg="8", sun_altitude="APPARENT", series="MARKED",
    )  # fmt: skip
    assert browser.post(reverse(ADDRESS), changes).status_code == 302
    studio.refresh_from_db()
    settled = conventions_of_studio(studio)
    assert (settled.meter_constant, settled.receptor, settled.reflected_constant) == (340.0, Receptor.DOME, 14.0)
    assert (settled.ratio, settled.altitude, settled.series) == (Ratio.KEY_TO_FILL, Altitude.APPARENT, Series.MARKED)
    assert (settled.low_sun.low_deg, settled.low_sun.high_deg) == (-2.0, 8.0)
    assert Entry.objects.filter(record=f"studio:{studio.pk}").exists()


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("meter_constant", "12"), ("dome_constant", "9999"), ("reflected_constant", "nan"), ("receptor", "EAR"),
        ("low_sun_to_deg", "-5"), ("low_sun_from_deg", "-90"), ("series", ""),
    ],
)  # fmt: skip
def test_what_no_meter_has_is_refused_by_its_field(browser, studio, field, value) -> None:
    answer = browser.post(reverse(ADDRESS), typed(**{field: value}))
    assert answer.status_code == 422
    assert list(answer.context["form"].errors) == [field]
    assert Studio.objects.get().version == 1


def test_only_the_owner_settles(signed_in, producer) -> None:
    assert signed_in(producer).get(reverse(ADDRESS)).status_code == 403


def test_another_ratio_is_written_on_the_same_light(studio) -> None:
    """US Army SS0510: a key one stop over its fill is 3:1 counted with the fill, 2:1 read one by one."""
    shoot = factories.make_shoot(studio, code="26-001")
    setup, lamps = make_lit_setup(shoot, lamps=1, ambient_ev100=None)
    same = {"lamp": lamps[0].lamp, "modifier": lamps[0].modifier}
    factories.make_placed_lamp(setup, role="FILL", bearing_deg=350.0, distance_m=2.4, **same)

    def ratio():
        return pages.setup_page(pages.setups_to_show().get(pk=setup.pk), None).reading.ratio_to_one

    counted = ratio()
    Studio.objects.update(lighting_ratio="KEY_TO_FILL")
    assert ratio() == pytest.approx(counted - 1.0)


def test_the_constant_moves_what_is_computed_from_the_sky_by_two_fifths_of_a_stop(studio) -> None:
    """C = 250 against 330: 0.40 stop (shared check table, traps)."""
    place = factories.make_place(studio, latitude=53.4, longitude=-1.6, time_zone="Europe/London")
    shoot = factories.make_shoot(studio, code="26-001")
    setup, _lamps = make_lit_setup(shoot, lamps=1, ambient_ev100=None, place=place, cloud_oktas=8)

    def level():
        from datetime import datetime
        from zoneinfo import ZoneInfo

        at = datetime(2026, 6, 1, 12, tzinfo=ZoneInfo("Europe/London"))
        return pages.setup_page(pages.setups_to_show().get(pk=setup.pk), at).sky.ambient.ev100

    flat = level()
    Studio.objects.update(meter_constant=330)
    assert flat - level() == pytest.approx(math.log2(330 / 250), abs=1e-9)


def test_marks_are_read_as_settled(studio) -> None:
    """ISO 517: f/11 stands for 11.314; as printed it is 0.08 stop wider."""
    shoot = factories.make_shoot(studio, code="26-001")
    setup, _lamps = make_lit_setup(shoot, lamps=0, aperture=11.0, shutter_s=1 / 125)

    def setting():
        return pages.setup_page(pages.setups_to_show().get(pk=setup.pk), None).reading.setting_ev100

    exact = setting()
    Studio.objects.update(series="MARKED")
    assert exact == pytest.approx(14.0, abs=1e-6)
    assert setting() == pytest.approx(math.log2(11.0**2 * 125), abs=1e-6)


def test_low_sun_lasts_as_long_as_settled(studio) -> None:
    """5.20: London, 28 March 2027: from +6° at 18:42:34 to -4° at 19:47:11 (skyfield, DE421)."""
    place = factories.make_place(studio, latitude=51.5074, longitude=-0.1278, time_zone="Europe/London", elevation_m=0)
    usual = light_of(place, date(2027, 3, 28), limits=sun_limits(studio)).low_sun[-1]
    assert f"{usual.start:%H:%M}" in ("18:42", "18:43")
    Studio.objects.update(low_sun_to_deg=12.0)
    studio.refresh_from_db()
    longer = light_of(place, date(2027, 3, 28), limits=sun_limits(studio)).low_sun[-1]
    assert longer.start < usual.start
    assert longer.end == usual.end
