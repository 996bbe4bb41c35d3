"""What happens to setups: lights are placed, moved and taken away, readings noted."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from django.db import models, transaction
from django.db.models import Max

from shoots.kit.models import Lamp, Modifier
from shoots.lighting.core.tenths import read_meter
from shoots.lighting.models import LightFactor, LightStart, MeterReading, PlacedLamp, PlacedPanel, Setup
from shoots.lighting.queries import factors, starts
from shoots.lighting.queries.conventions import receptor_constant
from shoots.members.actions import EditedMeanwhile
from shoots.members.models import Member, Studio
from shoots.shoot.models import Shoot
from shoots.trail import actions as trail

__all__ = [
    "EditedMeanwhile",
    "NameTaken",
    "add_setup",
    "apply_finding",
    "duplicate_setup",
    "edit_lamp",
    "edit_panel",
    "edit_setup",
    "edit_start",
    "keep_start",
    "move_setup",
    "note_reading",
    "place_lamp",
    "place_panel",
    "remove_lamp",
    "remove_panel",
    "remove_reading",
    "remove_setup",
    "remove_start",
    "settle_conventions",
    "withdraw_factor",
]

# A copy is a record of its own: what says which record and since when is left out.
_NOT_COPIED = {"id", "created_at", "version", "position", "studio", "shoot", "setup"}


@transaction.atomic
def add_setup(
    *, shoot: Shoot, begun: starts.Begun | None = None, by: Member | None, now: datetime, **fields: Any
) -> Setup:
    """Add a setup behind the others; `fields` are its own, `name` at least. Each call adds one.

    `begun` is a start made with what is in the bag: its settings, lights and panels are put in as well.
    """
    settings = dict(fields)
    for name, value in begun.settings.items() if begun else ():
        # Nothing chosen in the start leaves what the shoot suggests, the one lens in the bag, say.
        if not (name.endswith("_id") and value is None):
            settings.pop(name.removesuffix("_id"), None)
            settings[name] = value
    setup = Setup.objects.create(
        studio=shoot.studio, shoot=shoot, position=_next(Setup.objects.filter(shoot=shoot)), **settings
    )
    trail.record(setup, "added", by=by, shoot_code=shoot.code, changes={"name": ("", setup.name)}, at=now)
    placed = [place_lamp(setup=setup, by=by, now=now, **lamp) for lamp in begun.lamps] if begun else []
    for panel in begun.panels if begun else ():
        own = {name: value for name, value in panel.items() if name != "for_light"}
        number = panel.get("for_light")
        lamp = placed[number] if isinstance(number, int) and number < len(placed) else None
        place_panel(setup=setup, by=by, now=now, for_lamp=lamp, **own)
    return setup


@transaction.atomic
def edit_setup(
    *, setup: Setup, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime
) -> None:
    """Change a setup.

    Raises
    ------
    EditedMeanwhile
        If somebody saved it since it was opened; nothing is written.
    """
    trail.edit(setup, changes=changes, seen_version=seen_version, by=by, shoot_code=setup.shoot.code, at=now)


@transaction.atomic
def apply_finding(
    *,
    setup: Setup,
    lamps: Sequence[PlacedLamp],
    changes_setup: Mapping[str, Any],
    changes_lamps: Mapping[int, Mapping[str, Any]],
    seen_version: int,
    seen_lamps: Mapping[int, int],
    by: Member | None,
    now: datetime,
) -> None:
    """Set camera and lights as the search found them; all of it or nothing.

    The answer depends on every light, so a light that nothing changes on must still be the one that was seen.

    Raises
    ------
    EditedMeanwhile
        If setup or a light was changed, put in or taken out since; nothing is written.
    """
    stored = dict(PlacedLamp.objects.filter(setup=setup).values_list("pk", "version"))
    if stored != dict(seen_lamps) or setup.version != seen_version:
        raise EditedMeanwhile
    said = {"deed": "set as found", "by": by, "shoot_code": setup.shoot.code, "at": now}
    if changes_setup:
        trail.edit(setup, changes=changes_setup, seen_version=seen_version, **said)
    for placed in lamps:
        if changes := changes_lamps.get(placed.pk):
            trail.edit(placed, changes=changes, seen_version=seen_lamps[placed.pk], **said)


@transaction.atomic
def duplicate_setup(*, setup: Setup, name: str, by: Member | None, now: datetime) -> Setup:
    """Copy a setup with its lights, without its readings and without its shots. Each call adds one."""
    twin = add_setup(shoot=setup.shoot, by=by, now=now, **(_own_fields(setup) | {"name": name}))
    twins = {}
    for lamp in PlacedLamp.objects.filter(setup=setup):
        twins[lamp.pk] = PlacedLamp.objects.create(
            studio=setup.studio, setup=twin, position=lamp.position, **_own_fields(lamp)
        )
    for panel in PlacedPanel.objects.filter(setup=setup):
        own = {**_own_fields(panel), "for_lamp": twins.get(panel.for_lamp_id)}
        PlacedPanel.objects.create(studio=setup.studio, setup=twin, position=panel.position, **own)
    return twin


@transaction.atomic
def remove_setup(*, setup: Setup, by: Member | None, now: datetime) -> None:
    """Remove a setup with its lights and readings; its shots stay and name no setup afterwards."""
    trail.record(setup, "removed", by=by, shoot_code=setup.shoot.code, changes={"name": (setup.name, "")}, at=now)
    setup.delete()


@transaction.atomic
def move_setup(*, setup: Setup, step: int) -> None:
    """Move a setup by so many places, minus towards the front; the ends stop it. Two queries."""
    order = list(Setup.objects.filter(shoot=setup.shoot_id))
    here = next(n for n, other in enumerate(order) if other.pk == setup.pk)
    order.insert(min(max(here + step, 0), len(order) - 1), order.pop(here))
    for position, other in enumerate(order):
        other.position = position
    Setup.objects.bulk_update(order, ["position"])


@transaction.atomic
def place_lamp(*, setup: Setup, by: Member | None, now: datetime, **fields: Any) -> PlacedLamp:
    """Put a light into a setup; `fields` are its own, `lamp` at least. Each call adds one."""
    placed = PlacedLamp.objects.create(
        studio=setup.studio, setup=setup, position=_next(PlacedLamp.objects.filter(setup=setup)), **fields
    )
    changes = {"lamp": ("", str(placed.lamp))}
    trail.record(placed, "placed", by=by, shoot_code=setup.shoot.code, changes=changes, at=now)
    return placed


@transaction.atomic
def edit_lamp(
    *, placed: PlacedLamp, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime
) -> None:
    """Change a placed light or only move it; typed numbers and a drag on the plan both come here.

    Raises
    ------
    EditedMeanwhile
        If somebody moved or changed it since; nothing is written.
    """
    trail.edit(placed, changes=changes, seen_version=seen_version, by=by, shoot_code=placed.setup.shoot.code, at=now)


@transaction.atomic
def remove_lamp(*, placed: PlacedLamp, by: Member | None, now: datetime) -> None:
    """Take a light out of a setup, with its readings."""
    changes = {"lamp": (str(placed.lamp), "")}
    trail.record(placed, "removed", by=by, shoot_code=placed.setup.shoot.code, changes=changes, at=now)
    placed.delete()


@transaction.atomic
def note_reading(
    *,
    setup: Setup,
    placed_lamp: PlacedLamp | None,
    text: str,
    iso: int,
    shutter_s: float,
    dome_out: bool,
    by: Member | None,
    now: datetime,
) -> MeterReading:
    """Note what a meter showed ("11.3"): of one light, or of all together. Each call notes one.

    What had been predicted is kept with it, and the studio's factors are fitted anew for the shoots to come.

    Raises
    ------
    NoMeterReading
        If the text is no f-number of a meter; nothing is written.
    """
    read = read_meter(text)
    predicted = factors.prediction_for(setup, placed_lamp, shutter_s=shutter_s, at=now)
    reading = MeterReading.objects.create(
        studio=setup.studio,
        setup=setup,
        predicted=predicted.parts,
        ambient_lx_s=predicted.ambient_lx_s,
        ambient_spread_stops=predicted.ambient_spread_stops,
        meter_constant=receptor_constant(setup.studio, dome_out=dome_out),
        placed_lamp=placed_lamp,
        f_number=float(read.mark),
        tenths=read.tenths,
        iso=iso,
        shutter_s=shutter_s,
        dome_out=dome_out,
        read_at=now,
    )
    changes = {"reading": ("", f"f/{read.mark}.{read.tenths}")}
    trail.record(setup, "read", by=by, shoot_code=setup.shoot.code, changes=changes, at=now)
    _refit(setup.studio)
    return reading


@transaction.atomic
def remove_reading(*, reading: MeterReading, by: Member | None, now: datetime) -> None:
    """Remove a reading that was wrong."""
    setup = reading.setup
    changes = {"reading": (str(reading), "")}
    trail.record(setup, "reading removed", by=by, shoot_code=setup.shoot.code, changes=changes, at=now)
    reading.delete()
    _refit(setup.studio)


def _refit(studio: Studio) -> None:
    """Fit the studio's factors to its readings; what no reading speaks of any more counts for nothing."""
    # By their keys: the usual order joins the modifier, which may be none, and PostgreSQL locks no such join.
    stored = list(LightFactor.objects.of_studio(studio).order_by("pk").select_for_update())
    by_key = {(one.lamp_id, one.modifier_id): one for one in stored}
    latest = MeterReading.objects.of_studio(studio).order_by("-read_at", "-pk")[: factors.MOST_READINGS]
    fitted = factors.fitted_factors(factors.standing_readings(list(latest), stored))
    lamps = set(Lamp.objects.of_studio(studio).values_list("pk", flat=True))
    modifiers = {None, *Modifier.objects.of_studio(studio).values_list("pk", flat=True)}
    for key in fitted.keys | set(by_key):
        # What left the studio's books for good can't be planned with, whatever its readings say.
        if key[0] not in lamps or key[1] not in modifiers:
            continue
        row = by_key.get(key) or LightFactor(studio=studio, lamp_id=key[0], modifier_id=key[1])
        own = [one for one in fitted.readings if key in factors.keys_of(one)]
        if own:
            factor = fitted.factor(key)
            row.stops, row.spread_stops = factor.stops, factor.spread_stops
            row.read_at, row.withdrawn_at = max(one.read_at for one in own), None
        elif row.pk is None:
            continue
        row.readings = len(own)
        row.version += 1 if row.pk else 0
        row.save()


@transaction.atomic
def withdraw_factor(*, factor: LightFactor, by: Member | None, now: datetime) -> None:
    """Let what the meter said of a light count no more, nor the readings up to now. Repeating is harmless."""
    if LightFactor.objects.filter(pk=factor.pk, withdrawn_at=None).update(
        withdrawn_at=now, counts_from=now, readings=0
    ):
        trail.record(factor, "withdrawn", by=by, changes={"stops": (round(factor.stops, 2), "")}, at=now)
        _refit(factor.studio)


@transaction.atomic
def place_panel(*, setup: Setup, by: Member | None, now: datetime, **fields: Any) -> PlacedPanel:
    """Put a panel into a setup; `fields` are its own, `panel` at least. Each call adds one."""
    placed = PlacedPanel.objects.create(
        studio=setup.studio, setup=setup, position=_next(PlacedPanel.objects.filter(setup=setup)), **fields
    )
    changes = {"panel": ("", str(placed.panel))}
    trail.record(placed, "placed", by=by, shoot_code=setup.shoot.code, changes=changes, at=now)
    return placed


@transaction.atomic
def edit_panel(
    *, placed: PlacedPanel, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime
) -> None:
    """Change or move a placed panel.

    Raises
    ------
    EditedMeanwhile
        If somebody moved or changed it since; nothing is written.
    """
    trail.edit(placed, changes=changes, seen_version=seen_version, by=by, shoot_code=placed.setup.shoot.code, at=now)


@transaction.atomic
def remove_panel(*, placed: PlacedPanel, by: Member | None, now: datetime) -> None:
    """Take a panel out of a setup."""
    changes = {"panel": (str(placed.panel), "")}
    trail.record(placed, "removed", by=by, shoot_code=placed.setup.shoot.code, changes=changes, at=now)
    placed.delete()


class NameTaken(Exception):
    """Raised when another start of the studio is called so."""


@transaction.atomic
def keep_start(
    *, setup: Setup, name: str, note: str, over: LightStart | None, by: Member | None, now: datetime
) -> LightStart:
    """Keep the light of a setup to begin others with, as a new start or in the place of one.

    Raises
    ------
    NameTaken
        If another start is called so; nothing is written.
    """
    studio = setup.studio
    others = LightStart.objects.of_studio(studio).filter(name=name)
    if others.exclude(pk=over.pk if over else None).exists():
        raise NameTaken
    kept = starts.kept_of(setup)
    if over is None:
        start = LightStart.objects.create(studio=studio, name=name, note=note, **kept)
        trail.record(start, "kept", by=by, shoot_code=setup.shoot.code, changes={"name": ("", name)}, at=now)
        return start
    trail.edit(
        over,
        changes={"name": name, "note": note, **kept},
        seen_version=over.version,
        by=by,
        shoot_code=setup.shoot.code,
        at=now,
    )
    return over


@transaction.atomic
def edit_start(
    *, start: LightStart, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime
) -> None:
    """Rename a start or change its note.

    Raises
    ------
    NameTaken
        If another start is called so; nothing is written.
    EditedMeanwhile
        If somebody saved it since; nothing is written.
    """
    others = LightStart.objects.of_studio(start.studio).filter(name=changes["name"])
    if others.exclude(pk=start.pk).exists():
        raise NameTaken
    trail.edit(start, changes=changes, seen_version=seen_version, by=by, at=now)


@transaction.atomic
def remove_start(*, start: LightStart, by: Member | None, now: datetime) -> None:
    """Remove a start; setups that began with it stay as they are."""
    trail.record(start, "removed", by=by, changes={"name": (start.name, "")}, at=now)
    start.delete()


@transaction.atomic
def settle_conventions(
    *, studio: Studio, changes: Mapping[str, Any], seen_version: int, by: Member, now: datetime
) -> None:
    """Settle what the studio means by numbers of light. Readings keep the constant that they were read with.

    Raises
    ------
    EditedMeanwhile
        If somebody saved the studio since; nothing is written.
    """
    trail.edit(studio, changes=changes, seen_version=seen_version, studio=studio, by=by, at=now)


def _next(rows: models.QuerySet[Any]) -> int:
    last = rows.aggregate(last=Max("position"))["last"]
    return 0 if last is None else last + 1


def _own_fields(record: models.Model) -> dict[str, Any]:
    return {
        field.name: getattr(record, field.name)
        for field in record._meta.concrete_fields
        if field.name not in _NOT_COPIED
    }
