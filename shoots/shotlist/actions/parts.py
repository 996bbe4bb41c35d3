"""What happens to what shots pick from: products and their samples, outfits, subjects, finishing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from django.db import transaction

from shoots.members.models import Member
from shoots.shoot.models import Shoot
from shoots.shotlist.models import FinishingItem, Named, Outfit, Product, Sample, Shot, Subject
from shoots.trail import actions as trail

#: What a shot picks several of, by the name of its field.
PARTS: dict[str, type[Named]] = {"products": Product, "outfits": Outfit, "subjects": Subject}
LONGEST = 120


@dataclass(frozen=True)
class FinishingWanted:
    """Something to be done to the pictures of a shot: to how many (None: all), at which price (None: the card's)."""

    what: str
    pictures: int | None = None
    price: Decimal | None = None


def key_of(name: str) -> str:
    """Return what makes two names the same one: letters' case and spaces don't matter."""
    return " ".join(name.casefold().split())


def find_or_add(
    model: type[Named], shoot: Shoot, wanted: Iterable[Named | str], *, by: Member | None, now: datetime
) -> list[Named]:
    """Return the shoot's rows of these names in the order asked for, adding those that it has not. Rows pass through.

    One query, and one for each name that is new. Call it inside a transaction. Safe to repeat.
    """
    asked = list(wanted)
    if not any(isinstance(one, str) for one in asked):
        return list(dict.fromkeys(asked))  # type: ignore[arg-type]  # rows only
    known = {key_of(row.name): row for row in model._default_manager.filter(shoot=shoot)}
    found: dict[Named, None] = {}
    for one in asked:
        if isinstance(one, str):
            name = " ".join(one.replace(";", ",").split())[:LONGEST].strip()
            if not name:
                continue
            row = known.get(key_of(name))
            if row is None:
                row = model._default_manager.create(studio=shoot.studio, shoot=shoot, name=name, position=len(known))
                known[key_of(name)] = row
                trail.record(row, "added", by=by, shoot_code=shoot.code, changes={"name": ("", name)}, at=now)
            one = row
        found[one] = None
    return list(found)


def write_finishing(shot: Shot, wanted: Sequence[FinishingWanted]) -> tuple[list[str], list[str]] | None:
    """Put these items in place of a shot's own; return them before and after as words, or None if none changed."""
    before = [FinishingWanted(item.what, item.pictures, item.price) for item in shot.finishing_items.all()]
    after = list(dict.fromkeys(wanted))
    if before == after:
        return None
    shot.finishing_items.all().delete()
    FinishingItem.objects.bulk_create(
        [
            FinishingItem(studio=shot.studio, shot=shot, what=item.what, pictures=item.pictures, price=item.price)
            for item in after
        ]
    )
    return [item.what for item in before], [item.what for item in after]


@transaction.atomic
def add_part(*, model: type[Named], shoot: Shoot, fields: Mapping[str, Any], by: Member | None, now: datetime) -> Named:
    """Add a product, an outfit or a subject behind the others; one of that name that is there already is returned."""
    (row,) = find_or_add(model, shoot, [fields["name"]], by=by, now=now)
    for name, value in fields.items():
        if name != "name" and not getattr(row, name):
            setattr(row, name, value)
    row.save()
    return row


@transaction.atomic
def edit_part(*, part: Named, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime) -> None:
    """Change a product, an outfit or a subject; the shots that picked it keep it.

    Raises
    ------
    EditedMeanwhile
        If somebody saved it since; nothing is written.
    """
    trail.edit(part, changes=changes, seen_version=seen_version, by=by, shoot_code=part.shoot.code, at=now)


@transaction.atomic
def remove_part(*, part: Named, by: Member | None, now: datetime) -> None:
    """Remove a product, an outfit or a subject; the shots that picked it stay, without it."""
    trail.record(part, "removed", by=by, shoot_code=part.shoot.code, changes={"name": (part.name, "")}, at=now)
    part.delete()


@transaction.atomic
def take_over_products(*, shoot: Shoot, names: Iterable[str], by: Member | None, now: datetime) -> list[Named]:
    """Make a product of each name, as the brief lists them; those that are there stay as they are. Safe to repeat."""
    return find_or_add(Product, shoot, names, by=by, now=now)


@transaction.atomic
def add_sample(*, product: Product, fields: Mapping[str, Any], by: Member | None, now: datetime) -> Sample:
    """Write down that a piece of a product is to come, or has come. Each call adds one."""
    sample = Sample.objects.create(studio=product.studio, product=product, **fields)
    changes = {"product": ("", product.name)}
    trail.record(sample, "added", by=by, shoot_code=product.shoot.code, changes=changes, at=now)
    return sample


@transaction.atomic
def edit_sample(
    *, sample: Sample, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime
) -> None:
    """Change what is known of a sample.

    Raises
    ------
    EditedMeanwhile
        If somebody saved it since; nothing is written.
    """
    code = sample.product.shoot.code
    trail.edit(sample, changes=changes, seen_version=seen_version, by=by, shoot_code=code, at=now)


@transaction.atomic
def note_arrived(*, sample: Sample, on: date, by: Member | None, now: datetime) -> None:
    """Write down that a sample came. Safe to repeat: the first day stays."""
    if Sample.objects.filter(pk=sample.pk, arrived_date=None).update(arrived_date=on):
        trail.record(sample, "arrived", by=by, shoot_code=sample.product.shoot.code, at=now)


@transaction.atomic
def remove_sample(*, sample: Sample, by: Member | None, now: datetime) -> None:
    """Take a sample off its product."""
    code = sample.product.shoot.code
    trail.record(sample, "removed", by=by, shoot_code=code, changes={"size": (str(sample), "")}, at=now)
    sample.delete()
