"""Two setups of a shoot beside each other, and what to do between them as an assistant follows it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from django.utils.translation import gettext as _

from shoots.lighting.core.changeover import Change, ChangeKind, change_over
from shoots.lighting.core.setup import Setup as CoreSetup
from shoots.lighting.models import PlacedLamp, PlacedPanel, Setup
from shoots.lighting.queries.drawing import Drawing
from shoots.lighting.queries.notation import bearing_words, power_text, shutter_text
from shoots.lighting.queries.pages import drawing_for, lit, setups_to_show
from shoots.lighting.queries.rows import core_setup, lettered, numbered, sky_of
from shoots.shoot.models import Shoot
from shoots.values.units import OutOfRange


@dataclass(frozen=True)
class Doing:
    """One thing to do: to what, what, and how it shall be afterwards."""

    kind: ChangeKind
    letter: str
    subject: str
    deed: str
    detail: str
    minutes: float


@dataclass(frozen=True)
class Stage:
    """Things that are done one after another under one heading."""

    title: str
    doings: tuple[Doing, ...]


@dataclass(frozen=True)
class SideBySide:
    """Two setups and the way from the first to the second; `impossible` names a number that can't be meant."""

    before: Setup
    after: Setup
    before_drawing: Drawing | None
    after_drawing: Drawing | None
    stages: tuple[Stage, ...]
    minutes: float
    impossible: str

    @property
    def count(self) -> int:
        return sum(len(stage.doings) for stage in self.stages)


def pair_of(shoot: Shoot, before: str, after: str) -> tuple[list[Setup], Setup | None, Setup | None]:
    """Return the setups of a shoot in their order and the two that are asked for by key; the first two if none is."""
    setups = list(setups_to_show().filter(shoot=shoot))
    by_key = {str(one.pk): one for one in setups}
    first = by_key.get(before) or (setups[0] if setups else None)
    others = [one for one in setups if one is not first]
    later = [one for one in others if first and setups.index(one) > setups.index(first)]
    second = by_key.get(after) or next(iter(later or others), None)
    return setups, first, second


def side_by_side(before: Setup, after: Setup) -> SideBySide:
    """Return two setups and what to do between them. No query when they came from `setups_to_show`.

    A head keeps its job, not its letter: the lights of the second setup are paired with those of the first that are
    the same lamp, same job first, so that as little as possible is carried about.
    """
    old, new = lettered(list(before.lamps.all())), lettered(list(after.lamps.all()))
    paired = _paired(old, new)
    stages: tuple[Stage, ...] = ()
    minutes, impossible = 0.0, ""
    try:
        one = core_setup(before, old, sky_of(before, None).ambient)
        two = _relettered(core_setup(after, new, sky_of(after, None).ambient), paired)
        found = change_over(one, two)
    except OutOfRange as error:
        impossible = error.name
    else:
        words = _Words(before, after, old, new, {paired[name]: name for name, _lamp in new})
        stages = _stages([words.doing(change) for change in found.changes])
        minutes = found.minutes
    return SideBySide(
        before=before,
        after=after,
        before_drawing=_drawn(before),
        after_drawing=_drawn(after),
        stages=stages,
        minutes=minutes,
        impossible=impossible,
    )


def _drawn(setup: Setup) -> Drawing | None:
    shown = lit(setup, None)
    return drawing_for(setup, shown.lamps, shown.sky, shown.reading)


Lettered = Sequence[tuple[str, PlacedLamp]]


def _paired(old: Lettered, new: Lettered) -> dict[str, str]:
    """Return for each light of the second setup the letter of its head in the first, or a letter of its own."""
    left = list(old)
    found: dict[str, str] = {}
    for same in (
        lambda a, b: a.lamp_id == b.lamp_id and a.role == b.role and a.modifier_id == b.modifier_id,
        lambda a, b: a.lamp_id == b.lamp_id and a.role == b.role,
        lambda a, b: a.lamp_id == b.lamp_id and a.modifier_id == b.modifier_id,
        lambda a, b: a.lamp_id == b.lamp_id,
    ):
        for name, placed in new:
            match = next((one for one in left if name not in found and same(one[1], placed)), None)
            if match:
                found[name] = match[0]
                left.remove(match)
    # A light that is put up anew must not be taken for one that is there.
    return {name: found.get(name, f"+{name}") for name, _placed in new}


def _relettered(setup: CoreSetup, names: dict[str, str]) -> CoreSetup:
    return replace(
        setup,
        lights=tuple(replace(light, letter=names[light.letter]) for light in setup.lights),
        panels=tuple(replace(one, for_letter=names.get(one.for_letter, "")) for one in setup.panels),
    )


STAGES: tuple[tuple[Any, tuple[ChangeKind, ...]], ...] = (
    ("take", (ChangeKind.TAKE_AWAY,)),
    ("change", (ChangeKind.MODIFIER, ChangeKind.GELS)),
    ("move", (ChangeKind.MOVE, ChangeKind.HEIGHT, ChangeKind.TURN)),
    ("add", (ChangeKind.ADD,)),
    ("set", (ChangeKind.POWER, ChangeKind.SYNC)),
    (
        "camera",
        (
            ChangeKind.LENS,
            ChangeKind.FILTER,
            ChangeKind.CAMERA,
            ChangeKind.APERTURE,
            ChangeKind.SHUTTER,
            ChangeKind.ISO,
            ChangeKind.WHITE_BALANCE,
        ),
    ),
)


def _stages(doings: list[Doing]) -> tuple[Stage, ...]:
    titles = {
        "take": _("Take down"),
        "change": _("Change what is on it"),
        "move": _("Move"),
        "add": _("Put up"),
        "set": _("Set the lights"),
        "camera": _("At the camera"),
    }
    found = []
    for key, kinds in STAGES:
        own = tuple(doing for doing in doings if doing.kind in kinds)
        if own:
            found.append(Stage(titles[key], own))
    return tuple(found)


class _Words:
    """Says a change in the words of a set."""

    def __init__(self, before: Setup, after: Setup, old: Lettered, new: Lettered, new_names: dict[str, str]) -> None:
        self.before, self.after = before, after
        self.old, self.new, self.new_names = dict(old), dict(new), new_names
        self.old_panels = dict(numbered(list(before.panels.all())))
        self.new_panels = dict(numbered(list(after.panels.all())))

    def doing(self, change: Change) -> Doing:
        if not change.letter:
            return self._camera(change)
        placed = self.new.get(self.new_names.get(change.letter, ""))
        if change.letter in self.old or placed is not None:
            return self._light(change, self.old.get(change.letter), placed)
        return self._panel(change)

    def _light(self, change: Change, was: PlacedLamp | None, now: PlacedLamp | None) -> Doing:
        shown = now or was
        assert shown is not None
        # Plans are lettered one by one, so a head may carry another letter on the second.
        letter = self.new_names.get(change.letter, change.letter) if now else change.letter
        if now and was and letter != change.letter:
            letter = f"{change.letter} → {letter}"
        subject = f"{shown.get_role_display()}, {shown.lamp.name}"
        deed, detail = change.kind.value, ""
        if change.kind is ChangeKind.TAKE_AWAY:
            deed = _("take it down")
        elif change.kind is ChangeKind.MODIFIER and now and was:
            deed = _("put on: %(thing)s") % {"thing": _on_it(now)}
            detail = _("instead of %(thing)s") % {"thing": _on_it(was)}
        elif change.kind is ChangeKind.GELS and now:
            deed = _("gel: %(gel)s") % {"gel": now.gel.name if now.gel else _("none")}
            detail = _("was %(gel)s") % {"gel": was.gel.name if was and was.gel else _("none")}
        elif change.kind is ChangeKind.MOVE and now:
            deed = _("to %(place)s") % {"place": _place(now.distance_m, now.bearing_deg)}
            detail = _("%(m).1f m along the floor") % {"m": change.amount}
        elif change.kind is ChangeKind.HEIGHT and now:
            deed = _("to %(height)s m high") % {"height": f"{now.height_m:g}"}
            way = _("%(m).1f m up") if change.amount > 0 else _("%(m).1f m down")
            detail = way % {"m": abs(change.amount)}
        elif change.kind is ChangeKind.ADD and now:
            deed = _("with %(thing)s, to %(place)s, %(height)s m high") % {
                "thing": _on_it(now),
                "place": _place(now.distance_m, now.bearing_deg),
                "height": f"{now.height_m:g}",
            }
            more = [now.gel.name] if now.gel else []
            more += [_("power %(power)s") % {"power": power_text(now.power_down_stops)}]
            more += [_("radio %(group)s") % {"group": now.radio_group}] if now.radio_group else []
            detail = ", ".join(more)
        elif change.kind is ChangeKind.POWER and now:
            deed = _("power %(power)s") % {"power": power_text(now.power_down_stops)}
            detail = _("was %(power)s") % {"power": power_text(was.power_down_stops)} if was else ""
        elif change.kind is ChangeKind.SYNC:
            deed = _("high-speed sync on") if change.amount else _("high-speed sync off")
        return Doing(change.kind, letter, subject, deed, detail, change.minutes)

    def _panel(self, change: Change) -> Doing:
        was, now = self.old_panels.get(change.letter), self.new_panels.get(change.letter)
        shown = (was if change.kind is ChangeKind.TAKE_AWAY else now) or was or now
        assert shown is not None
        deed = _("take it away")
        if change.kind in (ChangeKind.ADD, ChangeKind.MOVE):
            deed = _panel_place(now or shown)
        detail = _("%(m).1f m") % {"m": change.amount} if change.kind is ChangeKind.MOVE else ""
        if change.kind is ChangeKind.TURN:
            deed, detail = _("turn it where it stands"), _("%(n).0f°") % {"n": change.amount}
        return Doing(change.kind, change.letter, str(shown.panel), deed, detail, change.minutes)

    def _camera(self, change: Change) -> Doing:
        was, now = self.before, self.after
        lens = f", {now.lens.name}" if now.lens else ""
        said: dict[ChangeKind, tuple[str, str, str]] = {
            ChangeKind.LENS: (
                _("Lens"),
                f"{now.focal_mm:g} mm{lens}",
                f"{was.focal_mm:g} mm",
            ),
            ChangeKind.FILTER: (
                _("ND filter"),
                _("%(stops)s stops") % {"stops": f"{change.amount:g}"} if change.amount else _("off"),
                "",
            ),
            ChangeKind.CAMERA: (
                _("Camera"),
                _("%(away)s m from the subject, %(height)s m high")
                % {"away": f"{now.camera_distance_m:g}", "height": f"{now.camera_height_m:g}"},
                _("%(m).1f m") % {"m": change.amount},
            ),
            ChangeKind.APERTURE: (_("Aperture"), f"f/{now.aperture:g}", f"f/{was.aperture:g}"),
            ChangeKind.SHUTTER: (_("Shutter"), f"{shutter_text(now.shutter_s)} s", f"{shutter_text(was.shutter_s)} s"),
            ChangeKind.ISO: (_("ISO"), f"{now.iso}", f"{was.iso}"),
            ChangeKind.WHITE_BALANCE: (_("White balance"), f"{now.white_balance_k} K", f"{was.white_balance_k} K"),
        }
        subject, deed, old = said[change.kind]
        own = change.kind in (ChangeKind.CAMERA, ChangeKind.FILTER)
        detail = old if own or not old else _("was %(old)s") % {"old": old}
        return Doing(change.kind, "", subject, deed, detail, change.minutes)


def _on_it(placed: PlacedLamp) -> str:
    thing = placed.modifier.name if placed.modifier else _("its standard reflector")
    return f"{thing}, {placed.grid.name}" if placed.grid else thing


def _place(distance_m: float, bearing_deg: float) -> str:
    return _("%(away)s m, %(bearing)s") % {"away": f"{distance_m:g}", "bearing": bearing_words(bearing_deg)}


def _panel_place(placed: PlacedPanel) -> str:
    return _("to %(place)s, middle %(height)s m high") % {
        "place": _place(placed.distance_m, placed.bearing_deg),
        "height": f"{placed.height_m:g}",
    }
