"""What of a day is ready for its call sheet, and what is missing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from shoots.callsheet.core.needs import Part, part_of
from shoots.callsheet.queries.sheet import places_of
from shoots.people.core import minor_on
from shoots.places.models import Permission, Place
from shoots.schedule.queries.care import DayCare, SetupWind
from shoots.schedule.queries.findings import concerns_of
from shoots.schedule.queries.plan import DayPage, DayPerson


class State(StrEnum):
    """How a thing stands: ready, to be looked at, or missing."""

    READY = "READY"
    LOOK = "LOOK"
    MISSING = "MISSING"


@dataclass(frozen=True)
class Check:
    """One thing that a sheet needs.

    `is_told`: everybody who gets the sheet reads that it is open. `is_private`: it tells somebody's age, for planners
    only, and no sheet prints it.
    """

    code: str
    state: State
    words: str
    url: str
    is_told: bool = False
    is_private: bool = False

    @property
    def is_ready(self) -> bool:
        return self.state is State.READY

    @property
    def is_missing(self) -> bool:
        return self.state is State.MISSING


def checks_of(page: DayPage, care: DayCare | None) -> tuple[Check, ...]:
    """Return what is missing, then what is to be looked at, then what is ready; `care` is the day's. No query."""
    found = [*_about_day(page), *_about_places(page), *_about_plan(page), *_about_people(page)]
    if care is not None:
        found += _about_care(page, care)
    order = [State.MISSING, State.LOOK, State.READY]
    return tuple(sorted(found, key=lambda check: order.index(check.state)))


def open_words(checks: tuple[Check, ...], *, told_only: bool) -> tuple[str, ...]:
    """Return what is open in words, all of it or what everybody may read."""
    printed = [check for check in checks if not check.is_ready and not check.is_private]
    return tuple(check.words for check in printed if check.is_told or not told_only)


def _about_day(page: DayPage) -> Iterator[Check]:
    day, code = page.day, page.day.shoot.code
    dates, plan = reverse("shoot_dates", args=[code]), reverse("day_plan", args=[code, day.pk])
    if day.is_pencilled:
        yield Check("DAY", State.LOOK, _("The day is only pencilled"), dates, is_told=True)
    else:
        yield Check("DAY", State.READY, _("The day is confirmed"), dates)
    if day.call_time:
        yield Check("CALL", State.READY, _("Call %(at)s") % {"at": f"{day.call_time:%H:%M}"}, plan)
    else:
        yield Check("CALL", State.MISSING, _("The call time is not set"), plan, is_told=True)
    if not day.wrap_time and not page.has_plan:
        yield Check("WRAP", State.LOOK, _("Neither a wrap nor a plan says when the day ends"), plan, is_told=True)
    if not day.shoot.studio.phone and not any(_can_be_called(person) for person in page.people):
        words = _("No telephone number of production")
        yield Check("PHONE", State.MISSING, words, reverse("studio_settings"), is_told=True)
    if not day.shoot.studio.insurance:
        yield Check("INSURANCE", State.LOOK, _("No insurance is noted"), reverse("studio_settings"))


def _about_care(page: DayPage, care: DayCare) -> Iterator[Check]:
    url = reverse("care_detail", args=[page.day.shoot.code])
    counted = [pool for pool in care.pools if pool.charge]
    for pool in counted:
        name = pool.battery.name if pool.battery else ", ".join(lamp.name for lamp in pool.lamps)
        if pool.charge and pool.is_short:
            words = ngettext(
                "%(name)s: %(n)d battery short for the planned frames",
                "%(name)s: %(n)d batteries short for the planned frames",
                pool.charge.more,
            )
            yield Check("BATTERIES", State.MISSING, words % {"name": name, "n": pool.charge.more}, url)
        elif pool.charge and not pool.charge.surely_lasts:
            yield Check("BATTERIES", State.LOOK, _("%(name)s: fits, but not with old batteries") % {"name": name}, url)
    if counted and not care.short:
        yield Check("BATTERIES", State.READY, _("The planned frames fit the batteries packed"), url)
    for setup, pace in care.paces:
        words = _("%(setup)s: %(letters)s can’t keep the planned pace")
        yield Check("PACE", State.LOOK, words % {"setup": setup.name, "letters": ", ".join(pace.letters)}, url)
    for wind in care.asks_hands:
        words = _("%(setup)s: in the forecast gusts %(what)s")
        said = {"setup": wind.setup.name, "what": wind_words(wind)}
        yield Check("WIND", State.LOOK, words % said, url)
    if care.hands_missing:
        words = ngettext(
            "%(n)d pair of hands is missing to hold lights in the wind",
            "%(n)d pairs of hands are missing to hold lights in the wind",
            care.hands_missing,
        )
        yield Check("HANDS", State.MISSING, words % {"n": care.hands_missing}, url)
    nameless = sum(one.person_id is None for one in care.holders)
    if nameless:
        words = ngettext(
            "%(n)d assistant is pencilled without a name", "%(n)d assistants are pencilled without names", nameless
        )
        yield Check("NAMES", State.LOOK, words % {"n": nameless}, reverse("shoot_dates", args=[page.day.shoot.code]))


def wind_words(wind: SetupWind) -> str:
    """Return which lights are held by hand and which come down: "A, B are held by hand, C comes down"."""
    parts = []
    if wind.held:
        words = ngettext("%(letters)s is held by hand", "%(letters)s are held by hand", len(wind.held))
        parts.append(words % {"letters": ", ".join(wind.held)})
    if wind.down:
        words = ngettext("%(letters)s comes down", "%(letters)s come down", len(wind.down))
        parts.append(words % {"letters": ", ".join(wind.down)})
    return ", ".join(parts)


def _can_be_called(person: DayPerson) -> bool:
    return bool(person.person.phone) and part_of(person.job, is_talent=person.is_talent) is Part.PRODUCTION


def _about_places(page: DayPage) -> Iterator[Check]:
    code = page.day.shoot.code
    if page.day.place is None:
        words, url = _("The place is not known yet"), reverse("day_edit", args=[code, page.day.pk])
        yield Check("PLACE", State.MISSING, words, url, is_told=True)
    for place in places_of(page):
        yield from _about_place(place)


def _about_place(place: Place) -> Iterator[Check]:
    url, edit = reverse("place_detail", args=[place.pk]), reverse("place_edit", args=[place.pk])
    name = {"place": place.name}
    if place.hospital:
        yield Check("HOSPITAL", State.READY, _("%(place)s: nearest A&E is noted") % name, url)
    else:
        yield Check("HOSPITAL", State.MISSING, _("%(place)s: no A&E is noted") % name, edit, is_told=True)
    if place.may_shoot:
        yield Check("PERMISSION", State.READY, _("%(place)s: permission is settled") % name, url)
    elif place.permission == Permission.ASKED:
        words = _("%(place)s: permission is asked, not given")
        yield Check("PERMISSION", State.LOOK, words % name, url, is_told=True)
    else:
        words = _("%(place)s: nobody has asked permission")
        yield Check("PERMISSION", State.MISSING, words % name, url, is_told=True)
    if not place.has_position:
        yield Check("POSITION", State.LOOK, _("%(place)s: no position, so no map and no light") % name, edit)
    if not place.parking:
        yield Check("PARKING", State.LOOK, _("%(place)s: nothing about parking and access") % name, edit)


def _about_plan(page: DayPage) -> Iterator[Check]:
    code = page.day.shoot.code
    plan, shots = reverse("day_plan", args=[code, page.day.pk]), reverse("shot_list", args=[code])
    if not page.cards:
        yield Check("SHOTS", State.MISSING, _("No shot is on this day"), shots)
    else:
        number = len(page.cards)
        yield Check("SHOTS", State.READY, ngettext("%(n)d shot", "%(n)d shots", number) % {"n": number}, shots)
        without = sum(card.shot.setup_id is None for card in page.cards)
        if without:
            words = ngettext("%(n)d shot has no setup", "%(n)d shots have no setup", without)
            yield Check("SETUPS", State.LOOK, words % {"n": without}, shots)
    if not page.has_plan:
        yield Check("PLAN", State.MISSING, _("There is no plan of the day"), plan)
        return
    concerns = len(concerns_of(page))
    if concerns:
        words = ngettext("%(n)d thing in the plan to look at", "%(n)d things in the plan to look at", concerns)
        yield Check("PLAN", State.LOOK, words % {"n": concerns}, plan)
    else:
        ends = {"at": f"{page.outline.ends_at:%H:%M}"}
        words = _("The plan ends at %(at)s") % ends if page.has_call else _("There is a plan")
        yield Check("PLAN", State.READY, words, plan)


def _about_people(page: DayPage) -> Iterator[Check]:
    dates = reverse("shoot_dates", args=[page.day.shoot.code])
    crew = [person for person in page.people if not person.is_talent]
    if not crew:
        yield Check("CREW", State.LOOK, _("No crew is held for this day"), dates)
    loose = [person.person.name for person in page.people if not person.is_firm]
    if loose:
        words = ngettext("%(names)s is only pencilled", "%(names)s are only pencilled", len(loose))
        yield Check("CONFIRMED", State.LOOK, words % {"names": ", ".join(loose)}, dates)
    elif page.people:
        number = len(page.people)
        words = ngettext("%(n)d person, confirmed", "%(n)d people, all confirmed", number)
        yield Check("CONFIRMED", State.READY, words % {"n": number}, dates)
    for person in page.people:
        url = reverse("person_detail", args=[person.person.pk])
        if not person.person.email:
            words = _("%(name)s has no e-mail address: hand the link on yourself")
            yield Check("MAIL", State.LOOK, words % {"name": person.person.name}, url)
        birth = person.person.birth_date
        if birth and birth <= page.day.date and minor_on(birth, page.day.date):
            words = _("%(name)s is under 18: guardian, hours, chaperone, and the council’s licence if it asks for one")
            yield Check("MINOR", State.LOOK, words % {"name": person.person.name}, url, is_private=True)
