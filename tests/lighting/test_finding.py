"""The search for settings on the page: what is wished, what is found, what would mend it, and setting it."""

from __future__ import annotations

from datetime import date, time

import pytest
from django.urls import reverse

from shoots.kit.models import Filter, FilterKind
from shoots.lighting.core.scales import aperture_scale, iso_scale, shutter_scale
from shoots.lighting.models import PlacedLamp, Setup
from shoots.lighting.queries import pages
from shoots.lighting.queries.finding import NoSuchMend
from shoots.templatetags import light
from shoots.trail.models import Entry
from tests import factories
from tests.lighting.factories import make_lit_setup


@pytest.fixture
def shoot(studio):
    return factories.make_shoot(studio, code="26-001")


@pytest.fixture
def dark(shoot):
    """A dark mood with a key 2 stops too strong for it; the background is too far to be lit."""
    return make_lit_setup(shoot, mood=factories.make_mood(shoot, brightness=10), background_distance_m=400.0)[0]


def shown(setup):
    return pages.setups_to_show().get(pk=setup.pk)


def page_of(setup, at=None, **asked):
    return pages.setup_page(shown(setup), at, **asked)


def url(name, *args):
    return reverse(name, args=["26-001", *args])


def sent(setup, **more):
    lamps = ",".join(f"{lamp.pk}:{lamp.version}" for lamp in PlacedLamp.objects.filter(setup=setup))
    return {"setup_version": Setup.objects.get(pk=setup.pk).version, "lamp_versions": lamps, **more}


def by_wish(rows):
    return {(row.now.wish.value, row.now.letter): row for row in rows}


def test_the_mood_s_wishes_are_held_against_the_present_settings(dark) -> None:
    """A tenth of the way from -3 … -2 to -1.2 … -0.2 is 2.82 to 1.82 under. Engraved thirds: 1/200 s is 2^(-23/3) s, so
    f/8 at ISO 100 exposes for EV 6 + 23/3.
    """
    rows = by_wish(page_of(dark).wishes)
    ambient = rows["AMBIENT", ""]
    assert ambient.now.wanted == pytest.approx(-2.32)
    assert ambient.now.got == pytest.approx(12.0 - 6.0 - 23.0 / 3.0)
    assert not ambient.is_met
    assert ambient.tolerance_stops == pytest.approx(0.5)
    assert ("BACKGROUND", "") not in rows
    assert rows["APERTURE", ""].is_met


def test_what_was_written_counts_instead_of_the_mood(dark) -> None:
    Setup.objects.filter(pk=dark.pk).update(
        wish_ambient_stops=-1.0, wish_widest_f=4.0, wish_narrowest_f=4.0, wish_shadow_stops=1.0
    )
    rows = by_wish(page_of(dark).wishes)
    assert rows["AMBIENT", ""].now.wanted == -1.0
    assert rows["RATIO", ""].now.wanted == pytest.approx(0.0)
    assert rows["APERTURE", ""].limits == (4.0, 4.0)
    assert not rows["APERTURE", ""].is_met


def test_without_a_mood_only_the_exposure_is_wished(shoot) -> None:
    setup = make_lit_setup(shoot)[0]
    assert [row.now.wish.value for row in page_of(setup).wishes] == ["EXPOSURE"]


def test_found_settings_meet_every_wish_and_stand_on_the_scales(dark) -> None:
    finding = page_of(dark, is_asked=True).finding
    assert finding.is_met
    assert all(row.is_met_found for row in finding.rows)
    changed = finding.changes_setup
    assert changed.get("shutter_s", 1 / 200) >= 1 / 200
    assert changed.get("aperture", 8.0) >= 8.0
    assert {one.name for one in finding.settings} == {"aperture", "shutter_s", "iso", "nd", "A"}


@pytest.mark.parametrize("name", ["aperture", "shutter_s", "iso"])
def test_settings_one_mark_off_are_not_taken_for_those_that_were_found(dark, name) -> None:
    """1/80 s is not 1/60 s, though they are only 4 ms apart."""
    found = page_of(dark, is_asked=True).finding.solution
    mark = {"aperture": found.aperture, "shutter_s": found.shutter, "iso": found.iso}[name]
    scale = {"aperture": aperture_scale, "shutter_s": shutter_scale, "iso": iso_scale}[name]()
    marks = sorted(one.marked for one in scale)
    for off in (-1, 1):
        beside = marks[marks.index(mark.marked) + off]
        Setup.objects.filter(pk=dark.pk).update(**{name: beside})
        again = page_of(dark, is_asked=True).finding
        best = {"aperture": "aperture", "shutter_s": "shutter", "iso": "iso"}[name]
        assert again.changes_setup[name] == pytest.approx(getattr(again.solution, best).marked, rel=1e-6)
        assert again.changes_anything


def test_one_click_sets_them_with_a_trail_and_nothing_is_left_to_find(browser, dark) -> None:
    text = browser.get(url("setup_detail", dark.pk) + "?find=1").content.decode()
    assert "These settings meet every wish." in text
    answer = browser.post(url("setup_found", dark.pk), sent(dark))
    assert answer["Location"] == url("setup_detail", dark.pk) + "#wishes"
    page = page_of(dark)
    assert page.fails == 0
    deeds = set(Entry.objects.filter(deed="set as found").values_list("record", flat=True))
    lamp = PlacedLamp.objects.get(setup=dark)
    assert deeds <= {f"setup:{dark.pk}", f"placedlamp:{lamp.pk}"}
    assert f"placedlamp:{lamp.pk}" in deeds
    assert not page_of(dark, is_asked=True).finding.changes_anything


def test_a_light_that_was_moved_since_stops_the_whole_of_it(browser, dark) -> None:
    seen = sent(dark)
    lamp = PlacedLamp.objects.get(setup=dark)
    place = {"version": lamp.version, "distance_m": "3", "bearing_deg": "20"}
    assert browser.post(url("lamp_place", dark.pk, lamp.pk), place).status_code == 302
    before = list(Setup.objects.values()), list(PlacedLamp.objects.values())
    page = browser.post(url("setup_found", dark.pk), seen, follow=True)
    assert "in the meantime" in page.content.decode()
    assert (list(Setup.objects.values()), list(PlacedLamp.objects.values())) == before
    for wrong in ({}, {"setup_version": "x"}, sent(dark, lamp_versions="1;2"), sent(dark, mend="ND::1.000:")):
        browser.post(url("setup_found", dark.pk), wrong)
    assert (list(Setup.objects.values()), list(PlacedLamp.objects.values())) == before


def test_nothing_fits_so_the_failing_wish_and_its_mends_are_named_by_effort(browser, dark) -> None:
    """Inverse square: a key 3 m away at EV 16 is too weak; nearer is two minutes of work, one more head is ten."""
    Setup.objects.filter(pk=dark.pk).update(ambient_ev100=16.0)
    PlacedLamp.objects.filter(setup=dark).update(distance_m=3.0)
    page = page_of(dark, is_asked=True)
    finding = page.finding
    assert not finding.is_met
    assert finding.solution.failing
    assert finding.fails_balance
    kinds = [row.mend.kind.value for row in finding.mends]
    assert "NEARER" in kinds
    efforts = [(not row.mend.settles, row.mend.effort_min * (row.mend.amount if "HEAD" in row.mend.kind else 1))
               for row in finding.mends]  # fmt: skip
    assert efforts == sorted(efforts)
    text = browser.get(url("setup_detail", dark.pk) + "?find=1").content.decode()
    assert "No settings meet every wish." in text
    assert "m nearer" in text
    assert "Filters, ISO and aperture move flash and ambient light together" in text
    nearer = next(row for row in finding.mends if row.mend.kind == "NEARER")
    browser.post(url("setup_found", dark.pk), sent(dark, mend=nearer.key))
    lamp = PlacedLamp.objects.get(setup=dark)
    assert lamp.distance_m == pytest.approx(3.0 - nearer.mend.amount, abs=0.01)
    again = page_of(dark, is_asked=True).finding
    assert again.solution.shortfall_stops == pytest.approx(nearer.mend.leaves_stops, abs=0.05)
    assert not again.changes_anything


def test_a_diffuser_comes_off_where_the_bag_knows_of_one(browser, dark) -> None:
    Setup.objects.filter(pk=dark.pk).update(ambient_ev100=15.5)
    PlacedLamp.objects.filter(setup=dark).update(distance_m=2.0)
    box = PlacedLamp.objects.get(setup=dark).modifier
    box.outer_diffuser_stops = 0.9
    box.save()
    finding = page_of(dark, is_asked=True).finding
    mend = next(row for row in finding.mends if row.mend.kind == "DIFFUSER_OFF")
    assert mend.mend.amount == pytest.approx(0.9)
    browser.post(url("setup_found", dark.pk), sent(dark, mend=mend.key))
    assert PlacedLamp.objects.get(setup=dark).outer_diffuser_off
    assert "outer diffuser off" in browser.get(url("setup_detail", dark.pk)).content.decode()


def test_waiting_moves_the_planned_time(browser, shoot, studio) -> None:
    """A dark mood at noon in June wants less sun than there is; the light of that day falls from then on."""
    place = factories.make_place(studio)
    setup = make_lit_setup(
        shoot,
        mood=factories.make_mood(shoot, brightness=10),
        place=place,
        spot=factories.make_spot(place),
        ambient_ev100=None,
        shoot_time=time(18, 0),
        cloud_oktas=2,
        wish_background_stops=-1.0,
    )[0]
    factories.make_day(shoot, date=date(2026, 6, 9), place=place)
    PlacedLamp.objects.filter(setup=setup).update(distance_m=3.5)
    response = browser.get(url("setup_detail", setup.pk) + "?find=1")
    finding = response.context["page"].finding
    assert not finding.is_met
    wait = next(row for row in finding.mends if row.mend.kind == "WAIT")
    answer = browser.post(url("setup_found", setup.pk) + "?time=18:00", sent(setup, mend=wait.key))
    assert answer["Location"] == url("setup_detail", setup.pk) + "#wishes"
    setup.refresh_from_db()
    assert setup.shoot_time == wait.mend.until.time()
    with pytest.raises(NoSuchMend):
        page = shown(setup)
        pages.finding_for(page, pages.lit(page, None), None, wait.key)


def test_a_wide_aperture_at_the_sync_speed_takes_the_filter_that_is_in_the_bag(dark, studio) -> None:
    """Issue's case by arithmetic: f/1.4 at ISO 100 and 1/200 s needs 3.4 stops less at EV 12; 1 more in the mood."""
    lens = factories.make_lens(studio, widest_f=1.4)
    filters = [factories.make_filter(studio, name=f"ND {n}", kind="ND", loss_stops=n, shift_mired=0) for n in (3, 2)]
    Setup.objects.filter(pk=dark.pk).update(
        lens=lens, wish_widest_f=1.4, wish_narrowest_f=1.4, wish_ambient_stops=-1.6, wish_shadow_stops=1.6, aperture=1.4
    )
    finding = page_of(dark, is_asked=True).finding
    assert finding.is_met
    assert sum(finding.solution.nd_stops) == 5.0
    assert {finding.changes_setup["nd"], finding.changes_setup["nd_second"]} == set(filters)
    # 1/200 s less 5 stops is 1/6400 s; with a curtain of 1/300 s ideally log2(1 + 6400 / 300) = 4.48 stops.
    assert finding.fast_sync.ideal_stops == pytest.approx(4.48, abs=0.03)
    assert finding.fast_sync.practice_stops - finding.fast_sync.ideal_stops == pytest.approx(1.6)


def test_wishes_are_typed_and_refused_by_their_field(browser, dark) -> None:
    typed = {"version": dark.version, "wish_widest_f": "f/4", "wish_narrowest_f": "4", "subject_speed_m_s": "6",
             "wish_blur_mm": "2", "wish_sky_may_blow": "no", "wish_ambient_stops": "-2.5"}  # fmt: skip
    for field, value in (("wish_ambient_stops", "bright"), ("wish_narrowest_f", "2"), ("wish_sharp_m", "7"),
                         ("subject_speed_m_s", "0"), ("wish_blur_mm", "-1")):  # fmt: skip
        page = browser.post(url("setup_wishes", dark.pk), typed | {field: value})
        assert page.status_code == 422
        assert list(page.context["form"].errors) == [field]
        assert page.context["form"][field].value() == value
    assert browser.post(url("setup_wishes", dark.pk), typed).status_code == 302
    setup = Setup.objects.get(pk=dark.pk)
    assert (setup.wish_widest_f, setup.wish_blur_mm, setup.wish_sky_may_blow) == (4.0, 2.0, False)
    assert browser.post(url("setup_wishes", dark.pk), typed).status_code == 422
    assert "2 mm" in browser.get(url("setup_detail", dark.pk)).content.decode()


def test_nobody_but_planners_sets_anything(crew, signed_in, dark, shoot) -> None:
    factories.make_booking(shoot, person=factories.make_person(shoot.studio, email=crew.user.email))
    browser = signed_in(crew)
    text = browser.get(url("setup_detail", dark.pk) + "?find=1").content.decode()
    assert "These settings meet every wish." in text
    assert "Set them" not in text
    assert browser.post(url("setup_found", dark.pk), sent(dark)).status_code == 403
    assert browser.get(url("setup_wishes", dark.pk)).status_code == 403


@pytest.mark.parametrize(
    "asked", ["?find=1&mend=x", "?find=1&mend=NEARER:Z:1.0:", "?find=1&mend=NEARER:A:nan:", "?find="]
)
def test_odd_addresses_are_met_calmly(browser, dark, asked) -> None:
    assert browser.get(url("setup_detail", dark.pk) + asked).status_code == 200


def test_one_more_head_is_set_where_the_bag_has_one_and_said_where_not(browser, dark) -> None:
    """Two equal heads side by side give one stop more: arithmetic."""
    Setup.objects.filter(pk=dark.pk).update(ambient_ev100=16.0)
    PlacedLamp.objects.filter(setup=dark).update(distance_m=2.0)
    more = {row.mend.kind: row for row in page_of(dark, is_asked=True).finding.mends}["ONE_MORE_HEAD"]
    assert more.key == ""
    lamp = PlacedLamp.objects.get(setup=dark).lamp
    lamp.quantity = 4
    lamp.save()
    more = {row.mend.kind: row for row in page_of(dark, is_asked=True).finding.mends}["ONE_MORE_HEAD"]
    browser.post(url("setup_found", dark.pk), sent(dark, mend=more.key))
    assert PlacedLamp.objects.get(setup=dark).heads == 1 + more.mend.amount


def test_a_page_says_that_the_meter_reads_without_the_filters_on_the_lens(browser, dark) -> None:
    plain = browser.get(url("setup_detail", dark.pk)).content.decode()
    assert "stops of ND" not in plain
    for stops, name in ((2.0, "nd"), (3.0, "nd_second")):
        one = Filter.objects.create(studio=dark.studio, kind=FilterKind.ND, name=f"ND {stops}", loss_stops=stops)
        Setup.objects.filter(pk=dark.pk).update(**{name: one})
    assert "f/8 set behind 5 stops of ND" in browser.get(url("setup_detail", dark.pk)).content.decode()


def test_an_unknown_ambient_light_is_named_before_any_wish_is_given_up(browser, dark) -> None:
    def text():
        return browser.get(url("setup_detail", dark.pk), {"find": 1}).content.decode()

    assert "The ambient light is not known yet" not in text()
    Setup.objects.filter(pk=dark.pk).update(ambient_ev100=None, place=None)
    shown = text()
    assert "The ambient light is not known yet" in shown and "First the ambient light" in shown
    assert "Choose a place, or put in a reading" in shown and "Let go of a wish" not in shown


def test_a_light_that_shall_look_warm_is_told_its_gels(browser, dark) -> None:
    """A full orange of the check table's scale X shifts by 159 mired, a half by 109."""
    PlacedLamp.objects.filter(setup=dark).update(wish_mired=150.0)
    finding = page_of(dark, is_asked=True).finding
    gels = next(row for row in finding.mends if row.mend.kind == "GELS")
    assert gels.key == ""
    assert 100.0 < gels.mend.amount < 170.0
    text = browser.get(url("setup_detail", dark.pk) + "?find=1").content.decode()
    assert f"A: gels of {gels.mend.amount:.0f} mired warm on it, and no others" in text


@pytest.mark.parametrize(("seconds", "text"), [(0.425, "0.42"), (1.111, "1.1"), (9.96, "10"), (15.4, "15")])
def test_a_recycling_time_has_two_figures(seconds: float, text: str) -> None:
    assert light.seconds(seconds) == text
