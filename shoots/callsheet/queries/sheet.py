"""The content of a call sheet: the general one, and each reader's own with only what concerns them.

It is plain data, frozen into the issued document: pages and PDFs are made from it alone. Drawings are frozen as they
were drawn, so that an issued sheet stays readable whatever their components become. No sheet holds a price, a bank
account, a date of birth or a number that its reader has no need of.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, time
from typing import Any

from babel.dates import format_date
from django.template.loader import render_to_string
from django.utils.translation import gettext as _

from shoots.callsheet.core.emergency import emergency_numbers
from shoots.callsheet.core.needs import Part, may_call, part_of, shots_for
from shoots.callsheet.core.position import position_text
from shoots.documents.queries import studio_card
from shoots.people.core import minor_on
from shoots.people.models import Contact
from shoots.places.models import CARE, Place
from shoots.places.queries import cautions_of
from shoots.schedule.queries.plan import DayPage, DayPerson, PlanRow, moment_of, place_of_block
from shoots.shoot.models import ShootDay
from shoots.shotlist.models import Shot
from shoots.shotlist.queries import ShotCard, sample_cards

TEMPLATE = "documents/call_sheet.html"
LOCALE = "en_GB"
#: What of the studio a sheet may carry: no bank details.
_STUDIO = ("name", "legal_name", "address", "email", "phone", "company_number", "vat_number", "insurance", "country")


@dataclass(frozen=True)
class SheetNotes:
    """What is typed when a sheet is issued; the next sheet of the day begins with it."""

    weather_rule: str = ""
    food: str = ""
    note: str = ""


@dataclass(frozen=True)
class Issue:
    """How a sheet is issued: what its head says. `open_items` is everything that is open, `told` what all may read."""

    number: str
    kind: str
    kind_words: str
    revision: int
    issued_at: datetime
    notes: SheetNotes
    what_changed: str = ""
    open_items: tuple[str, ...] = ()
    told: tuple[str, ...] = ()
    plans: Mapping[int, Any] = field(default_factory=dict)


@dataclass(frozen=True)
class Reader:
    """Whose sheet it is. None of it for the general one."""

    part: Part
    name: str
    job: str
    call: time | None
    bring: str = ""
    diet: str = ""
    person: DayPerson | None = None


def reader_of(person: DayPerson) -> Reader:
    """Return somebody who is held for the day as a reader. No query."""
    return Reader(
        part=part_of(person.job, is_talent=person.is_talent),
        name=person.person.name,
        job=person.job,
        call=person.call,
        bring=person.booking.bring,
        diet=person.person.diet,
        person=person,
    )


def client_reader(contact: Contact, page: DayPage) -> Reader:
    """Return the client's contact as a reader. No query."""
    return Reader(part=Part.CLIENT, name=contact.name, job=contact.job or _("Client"), call=page.day.call_time)


def general_sheet(page: DayPage, issue: Issue) -> dict[str, Any]:
    """Return the content of the sheet for the wall and the file. No query."""
    return _content(page, issue, None)


def sheet_for(reader: Reader | DayPerson, page: DayPage, issue: Issue) -> dict[str, Any]:
    """Return the content of somebody's own sheet: their call, their shots, the numbers they need. No query."""
    return _content(page, issue, reader_of(reader) if isinstance(reader, DayPerson) else reader)


def _content(page: DayPage, issue: Issue, reader: Reader | None) -> dict[str, Any]:
    day, shoot = page.day, page.day.shoot
    cards, is_named = _cards_for(reader, page)
    keys = {card.shot.pk for card in cards}
    card = studio_card(shoot.studio)
    is_crew = reader is None or reader.part in (Part.PRODUCTION, Part.LEAD, Part.CREW)
    return {
        "studio": {name: card[name] for name in _STUDIO},
        "number": issue.number,
        "kind": issue.kind,
        "kind_words": issue.kind_words,
        "revision": issue.revision,
        "issued_on": issue.issued_at.date().isoformat(),
        "issued_at": issue.issued_at.isoformat(),
        "what_changed": issue.what_changed,
        "changes": [],
        "shoot": {"code": shoot.code, "title": shoot.title},
        "client": shoot.client.name if shoot.client else "",
        "day": _day(day, page),
        "person": _person(reader, cards, is_named),
        "places": [_place(place) for place in places_of(page)],
        "contacts": _contacts(page, reader),
        "people": [_one(person, page) for person in page.people if not person.is_second_option],
        "hired": [booking.what or str(booking) for booking in page.hired] if is_crew else [],
        "strip": drawn("day_strip", strip=page.strip) if page.strip and page.has_call else "",
        "timetable": _timetable(page, reader, keys),
        "setups": _setups(page, cards, issue.plans if is_crew else {}),
        "outfits": _outfits(cards),
        "products": _products(cards, issue.issued_at.astimezone(page.outline.zone).date()),
        "light": drawn("light_strip", light=page.light) if page.light else "",
        "diets": _diets(page) if reader is None or reader.part is Part.PRODUCTION else [],
        "has_minor": any(_is_minor(person, day) for person in page.people),
        "weather_rule": issue.notes.weather_rule,
        "food": issue.notes.food,
        "note": issue.notes.note,
        "open": list(issue.open_items if reader is None or reader.part is Part.PRODUCTION else issue.told),
    }


def drawn(component: str, **takes: Any) -> str:
    """Return a drawing's markup, escaped by its own component. No query."""
    return str(render_to_string(f"components/{component}.html", takes)).strip()


def _clock(at: time | datetime | None) -> str:
    return f"{at:%H:%M}" if at else ""


def _day(day: ShootDay, page: DayPage) -> dict[str, Any]:
    return {
        "date": day.date.isoformat(),
        "words": str(format_date(day.date, "EEEE d MMMM y", locale=LOCALE)),
        "number": page.number,
        "of": page.of,
        "call": _clock(day.call_time),
        "wrap": _clock(day.wrap_time),
        "ends": _clock(page.outline.ends_at) if page.has_plan and page.has_call else "",
        "zone": str(page.outline.zone),
        "note": day.note,
        "is_pencilled": day.is_pencilled,
    }


def _cards_for(reader: Reader | None, page: DayPage) -> tuple[tuple[ShotCard, ...], bool]:
    """Return the shots that concern a reader, and whether the list names them."""
    if reader is None or reader.part is not Part.TALENT:
        return page.cards, True
    wanted, is_named = shots_for(reader.name, {card.shot.pk: card.shot.people for card in page.cards})
    return tuple(card for card in page.cards if card.shot.pk in wanted), is_named


def _person(reader: Reader | None, cards: Sequence[ShotCard], is_named: bool) -> dict[str, Any] | None:
    if reader is None:
        return None
    return {
        "name": reader.name,
        "job": reader.job,
        "part": str(reader.part),
        "call": _clock(reader.call),
        "bring": reader.bring,
        "diet": reader.diet,
        "is_named": is_named,
        "shots": [card.number for card in cards],
        "is_talent": reader.part is Part.TALENT,
    }


def places_of(page: DayPage) -> tuple[Place, ...]:
    """Return the day's place, then the others where something happens. No query."""
    places = [page.day.place, *(place_of_block(block, page.day) for block in page.blocks)]
    places += [card.shot.place for card in page.cards]
    return tuple({place.pk: place for place in places if place}.values())


def _place(place: Place) -> dict[str, Any]:
    has_position = place.latitude is not None and place.longitude is not None
    return {
        "name": place.name,
        "address": place.address,
        "country": place.country,
        "latitude": f"{place.latitude:.5f}" if has_position else "",
        "longitude": f"{place.longitude:.5f}" if has_position else "",
        "position": position_text(place.latitude, place.longitude) if has_position else "",
        "elevation_m": round(place.elevation_m) if place.elevation_m else None,
        "is_indoors": place.indoors,
        "parking": place.parking,
        "power": place.power,
        "hospital": place.hospital,
        "emergency": list(emergency_numbers(place.country)),
        "permission": str(place.get_permission_display()),
        "may_shoot": place.may_shoot,
        "permission_note": place.permission_note,
        "hazards": _lines(place.hazards),
        "care": [str(CARE[caution]) for caution in cautions_of(place)],
    }


def _contacts(page: DayPage, reader: Reader | None) -> list[dict[str, str]]:
    """Return who is called, in that order: the studio, production, then whose number this reader needs."""
    studio = page.day.shoot.studio
    found = [{"name": studio.name, "job": _("Production"), "phone": studio.phone}] if studio.phone else []
    asks = reader.part if reader else Part.CREW
    known = [(part_of(person.job, is_talent=person.is_talent), person) for person in page.people]
    order = list(Part)
    for part, person in sorted(known, key=lambda pair: order.index(pair[0])):
        is_self = reader is not None and reader.person is not None and reader.person.person.pk == person.person.pk
        if person.person.phone and may_call(asks, part) and not is_self and not person.is_second_option:
            found.append({"name": person.person.name, "job": person.job, "phone": person.person.phone})
    return found


def _one(person: DayPerson, page: DayPage) -> dict[str, Any]:
    return {
        "name": person.person.name,
        "job": person.job,
        "call": _clock(person.call),
        "is_talent": person.is_talent,
        "is_pencilled": not person.is_firm,
    }


def _timetable(page: DayPage, reader: Reader | None, keys: set[int]) -> list[dict[str, Any]]:
    """Return the day's rows with clock times, from a reader's own call on.

    Nothing while there is no call, for a reckoned hour is none.
    """
    if not page.has_call:
        return []
    is_talent = reader is not None and reader.part is Part.TALENT
    there_from = moment_of(page.day, reader.call) if reader and reader.call else page.outline.start
    rows = []
    for row in page.rows:
        if row.ends_at <= there_from:
            continue
        shots = [card.number for card in row.shots if card.shot.pk in keys]
        rows.append(
            {
                "start": _clock(row.starts_at),
                "end": _clock(row.ends_at),
                "minutes": row.minutes,
                "kind": row.kind,
                "kind_words": row.kind_words,
                "words": row.words,
                "number": row.number,
                "shots": shots,
                "is_theirs": bool(shots) or not (is_talent and row.is_shoot),
                "after_midnight": row.after_midnight,
            }
        )
    return rows


def _setups(page: DayPage, cards: Sequence[ShotCard], plans: Mapping[int, Any]) -> list[dict[str, Any]]:
    """Return the shots by setup, in the order in which the plan comes to them."""
    rows = [row for row in page.rows if row.block and row.is_shoot]
    order = list(dict.fromkeys([row.block.setup_id for row in rows if row.block]))
    order += [key for key in dict.fromkeys(card.shot.setup_id for card in cards) if key not in order]
    found = []
    for key in order:
        own = [card for card in cards if card.shot.setup_id == key]
        if not own:
            continue
        setup = own[0].shot.setup
        mine = [row for row in rows if row.block and row.block.setup_id == key]
        found.append(
            {
                "name": setup.name if setup else "",
                "note": setup.note if setup and plans else "",  # a note to whoever builds the light
                "times": [_span(row) for row in mine] if page.has_call else [],
                "plan": plans.get(key) if key else None,
                "shots": [_shot(card) for card in own],
            }
        )
    return found


def _span(row: PlanRow) -> str:
    return f"{row.starts_at:%H:%M}–{row.ends_at:%H:%M}"


def _shot(card: ShotCard) -> dict[str, Any]:
    shot = card.shot
    return {
        "key": shot.pk,
        "number": card.number,
        "title": shot.title,
        "framing": str(shot.get_framing_display()),
        "shapes": list(shot.shapes),
        "minutes": shot.minutes,
        "people": shot.people,
        "product": shot.product,
        "outfit": shot.outfit,
        "copy_space": shot.copy_space,
        "moment": ", ".join(text for text in (_moment(shot), shot.moment_note) if text),
        "is_wish": shot.priority == "WISH",
        "sketch": drawn("shot_sketch", sketch=card.sketch, preview_url="", label=""),
    }


def _moment(shot: Shot) -> str:
    return str(shot.get_moment_display()).lower() if shot.moment else ""


def _outfits(cards: Iterable[ShotCard]) -> list[dict[str, Any]]:
    """Return each outfit with its pieces and the numbers of its shots."""
    return [
        {"what": outfit.name, "pieces": _lines(outfit.pieces), "shots": numbers}
        for outfit, numbers in _numbered(cards, "outfits")
    ]


def _products(cards: Iterable[ShotCard], today: date) -> list[dict[str, Any]]:
    """Return each product with the numbers of its shots, and which samples are there, or are not."""
    return [
        {
            "what": product.name,
            "note": product.note,
            "shots": numbers,
            "samples": [
                {
                    "what": str(one.sample),
                    "state": one.state_words,
                    "due": one.sample.due_date.isoformat() if one.is_awaited and one.sample.due_date else "",
                    "is_here": one.is_here,
                    "note": one.sample.note,
                }
                for one in sample_cards(product, today=today)
            ],
        }
        for product, numbers in _numbered(cards, "products")
    ]


def _numbered(cards: Iterable[ShotCard], name: str) -> Iterable[tuple[Any, list[int]]]:
    found: dict[Any, list[int]] = {}
    for card in cards:
        for part in getattr(card.shot, name).all():
            found.setdefault(part, []).append(card.number)
    return found.items()


def _lines(text: str) -> list[str]:
    return [line.strip() for line in text.splitlines() if line.strip()]


def _diets(page: DayPage) -> list[dict[str, Any]]:
    """Return how many eat what, without names: who orders the food needs no more."""
    found: dict[str, int] = {}
    for person in page.people:
        if person.person.diet and not person.is_second_option:
            found[person.person.diet] = found.get(person.person.diet, 0) + 1
    return [{"what": text, "people": number} for text, number in found.items()]


def _is_minor(person: DayPerson, day: ShootDay) -> bool:
    birth = person.person.birth_date
    return bool(birth and birth <= day.date and minor_on(birth, day.date))
