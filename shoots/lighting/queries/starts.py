"""Lights to begin a setup with: two that come with the program, and the studio's own."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from django.db import models
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.kit.core.starting import Modifier as Kind
from shoots.kit.models import Filter, FilterKind, Lamp, Lens, Modifier, Panel, Stand
from shoots.kit.queries import NAMES
from shoots.lighting.core.starts import STARTS, Start, StartingPoint
from shoots.lighting.models import LightStart, PlacedLamp, PlacedPanel, Setup
from shoots.lighting.queries.rows import FACE_SHARE, is_known
from shoots.members.models import Studio

NEAR_MIRED = 30.0
"""A gel of the bag that is no further off than this stands for the one that a start names. [MK⁻¹]"""
START_NAMES: dict[Start, Any] = {
    Start.DARK_AND_DRAMATIC: gettext_lazy("Dark and dramatic"),
    Start.BRIGHT_SUMMER: gettext_lazy("Bright summer"),
}
START_WORDS: dict[Start, Any] = {
    Start.DARK_AND_DRAMATIC: gettext_lazy(
        "Ambient two to three stops under, a hard key, rims from behind that run over."
    ),
    Start.BRIGHT_SUMMER: gettext_lazy(
        "Background at or over, a soft key, a hard high head opposite as the sun, shallow depth."
    ),
}
# What makes a setup this setup on this shoot; the rest is its light.
_NOT_KEPT = {
    *("id", "studio", "camera", "created_at", "version", "shoot", "position", "name", "note", "mood", "place", "spot"),
    *(
        "shoot_time",
        "ambient_ev100",
        "ambient_under",
        "cloud_oktas",
        "setup",
        "for_lamp",
        "gust_m_s",
        "air_c",
        "frames",
        "frame_every_s",
    ),
}


@dataclass(frozen=True)
class StartCard:
    """A start to choose: its key in the form, its name, and what it is like in one sentence."""

    key: str
    name: str
    words: str
    own: LightStart | None


def start_cards(studio: Studio) -> tuple[StartCard, ...]:
    """Return what a setup can begin with, the studio's own first. One query."""
    own = [
        StartCard(f"own-{one.pk}", one.name, one.note or _lights_words(one), one)
        for one in LightStart.objects.of_studio(studio)
    ]
    given = [StartCard(start.value, str(START_NAMES[start]), str(START_WORDS[start]), None) for start in STARTS]
    return (*own, *given)


def _lights_words(start: LightStart) -> str:
    roles = dict(PlacedLamp._meta.get_field("role").choices or [])
    return ", ".join(str(roles.get(one.get("role"), "")) for one in start.lamps) or _("Ambient light only")


def kept_of(setup: Setup) -> dict[str, Any]:
    """Return settings, lights and panels of a setup as a start keeps them. Two queries."""
    lamps = list(PlacedLamp.objects.filter(setup=setup))
    places = {one.pk: number for number, one in enumerate(lamps)}
    return {
        "settings": _plain_fields(setup),
        "lamps": [_plain_fields(one) for one in lamps],
        "panels": [
            {**_plain_fields(one), "for_light": places.get(one.for_lamp_id)}
            for one in PlacedPanel.objects.filter(setup=setup)
        ],
    }


def _plain_fields(record: models.Model) -> dict[str, Any]:
    """Return what can be kept of a row: numbers, words, and keys of things in the bag."""
    return {
        field.attname: field.value_from_object(record)
        for field in record._meta.concrete_fields
        if field.name not in _NOT_KEPT
    }


@dataclass(frozen=True)
class Begun:
    """What a start means with this bag: fields of the setup, of its lights and of its panels.

    `missing` names what the bag does not have, so that the page can say it.
    """

    settings: Mapping[str, Any]
    lamps: tuple[Mapping[str, Any], ...]
    panels: tuple[Mapping[str, Any], ...]
    missing: tuple[str, ...]


def begun(studio: Studio, key: str) -> Begun | None:
    """Return a start by its key in the form, made with what is in the bag; None for an empty floor."""
    if key in (start.value for start in STARTS):
        return begun_with(studio, Start(key), float(Setup._meta.get_field("subject_height_m").default))
    own = LightStart.objects.of_studio(studio).filter(pk=key.removeprefix("own-") or 0).first() if key else None
    return begun_with_own(own) if own else None


def begun_with_own(start: LightStart) -> Begun:
    """Return a kept start with what of it is still in the studio's books. One query a section of the bag."""
    studio = start.studio
    known = {
        "lamp_id": _keys(Lamp, studio),
        "modifier_id": _keys(Modifier, studio),
        "grid_id": _keys(Modifier, studio),
        "gel_id": _keys(Filter, studio),
        "stand_id": _keys(Stand, studio),
        "panel_id": _keys(Panel, studio),
        "lens_id": _keys(Lens, studio),
        "nd_id": _keys(Filter, studio),
        "nd_second_id": _keys(Filter, studio),
    }
    missing: list[str] = []

    def sound(kept: Mapping[str, Any], model: type[models.Model]) -> dict[str, Any]:
        names = {field.attname for field in model._meta.concrete_fields}
        found = {}
        for name, value in kept.items():
            if name not in names:
                continue
            gone = name in known and value is not None and value not in known[name]
            found[name] = None if gone else value
        return found

    lamps = [sound(one, PlacedLamp) for one in start.lamps]
    missing += [_("a light that is no longer in the bag") for one in lamps if one.get("lamp_id") is None]
    panels = [{**sound(one, PlacedPanel), "for_light": one.get("for_light")} for one in start.panels]
    # A panel names its light by its number, so a light that is gone keeps its number until all are placed.
    left = [number for number, one in enumerate(lamps) if one.get("lamp_id") is not None]
    for panel in panels:
        panel["for_light"] = left.index(panel["for_light"]) if panel["for_light"] in left else None
    return Begun(
        sound(start.settings, Setup),
        tuple(one for one in lamps if one.get("lamp_id") is not None),
        tuple(one for one in panels if one.get("panel_id") is not None),
        tuple(missing),
    )


def _keys(model: Any, studio: Studio) -> set[int]:
    return set(model.objects.of_studio(studio).values_list("pk", flat=True))


def begun_with(studio: Studio, start: Start, subject_height_m: float) -> Begun:
    """Return a start of the program made with what is in the bag. Three queries."""
    point = STARTS[start]
    heads = _heads(studio)
    modifiers = list(Modifier.objects.of_studio(studio).filter(put_away_at=None).order_by("pk"))
    gels = list(Filter.objects.of_studio(studio).filter(put_away_at=None, kind=FilterKind.GEL))
    lamps, missing = [], []
    for number, light in enumerate(point.lights):
        if number >= len(heads):
            missing.append(_("lights, %(n)d more") % {"n": len(point.lights) - len(heads)})
            break
        modifier = _modifier(modifiers, light.modifier)
        if modifier is None and light.modifier is not Kind.STANDARD_REFLECTOR:
            missing.append(str(NAMES["modifiers"][light.modifier.value]))
        gel = min(gels, key=lambda one: abs(one.shift_mired - light.shift_mired), default=None)
        if light.shift_mired and (gel is None or abs(gel.shift_mired - light.shift_mired) > NEAR_MIRED):
            missing.append(_("a gel of about %(m)+.0f mired") % {"m": light.shift_mired})
            gel = None
        lamps.append(
            {
                "lamp_id": heads[number].pk,
                "role": light.part.value,
                "modifier_id": modifier.pk if modifier else None,
                "gel_id": gel.pk if gel and light.shift_mired else None,
                "bearing_deg": light.bearing_deg % 360.0,
                "distance_m": light.floor_m,
                "height_m": round(subject_height_m * FACE_SHARE + light.above_face_m, 2),
            }
        )
    return Begun(_wished(point), tuple(lamps), (), tuple(missing))


def _heads(studio: Studio) -> list[Lamp]:
    """Return the lights of the bag one by one, the strongest flash heads first."""
    rows = [one for one in Lamp.objects.of_studio(studio).filter(put_away_at=None) if is_known(one)]
    rows.sort(key=lambda one: (one.guide_number_m is None, -(one.guide_number_m or 0.0), one.pk))
    return [one for one in rows for _number in range(one.quantity)]


def _modifier(modifiers: Iterable[Modifier], kind: Kind) -> Modifier | None:
    """Return the modifier of the bag that is nearest to a starting kind; none for the standard reflector."""
    if kind is Kind.STANDARD_REFLECTOR:
        return None
    name = str(NAMES["modifiers"][kind.value])
    by_name = next((one for one in modifiers if one.name == name), None)
    if by_name:
        return by_name
    alike = {Kind.LONG_REFLECTOR: "LONG_REFLECTOR", Kind.OCTAGON_150: "SOFTBOX", Kind.OCTAGON_95: "SOFTBOX"}
    found = [one for one in modifiers if one.kind == alike.get(kind)]
    # Of several boxes the largest: a start that names a box wants it soft.
    return max(found, key=lambda one: one.width_m * one.height_m, default=None)


def _wished(point: StartingPoint) -> dict[str, Any]:
    """Return a start's wishes as fields of a setup."""
    wishes = point.wishes
    found: dict[str, Any] = {}
    for name, target in (
        ("wish_ambient_stops", wishes.ambient),
        ("wish_background_stops", wishes.background),
        ("wish_rim_stops", wishes.rims),
    ):
        if target is not None:
            found[name] = target.stops
    if wishes.widest is not None and wishes.narrowest is not None:
        found |= {"wish_widest_f": wishes.widest, "wish_narrowest_f": wishes.narrowest, "aperture": 2.0}
    return found
