"""The mood sheet as one thing: the client's page and the PDF are drawn from the same content."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from datetime import date
from typing import Any

from shoots.documents.queries import studio_card
from shoots.mood.core.mosaic import justified
from shoots.mood.models import Whose
from shoots.mood.queries.pages import MoodsPage, MoodView, ReferenceCard, moods_page
from shoots.shoot.models import Shoot

# The picture field of an A4 sheet laid across, in tenths of a millimetre.
FIELD_WIDTH, FIELD_HEIGHT, GAP = 1810.0, 1500.0, 30.0
LONG_NAME, LONG_WORDS = 28, 110
"""Letters from which a mood's name and words are set smaller."""
MOST_IN_A_FIELD = 12
"""Pictures on one page; more would be too small to say anything, and their notes would find no room."""


def sheet_paper(shoot: Shoot, *, on: date) -> dict[str, Any]:
    """Return all moods of a shoot as the mood sheet shows them. Three queries."""
    return paper_of(shoot, moods_page(shoot), on=on)


def paper_of(shoot: Shoot, page: MoodsPage, *, on: date) -> dict[str, Any]:
    """Return the mood sheet of moods that were read before. No query."""
    return {
        "studio": studio_card(shoot.studio),
        "code": shoot.code,
        "title": shoot.title,
        "client": str(shoot.client) if shoot.client else "",
        "day": on.isoformat(),
        "moods": [mood_paper(view, owners=_owners(shoot)) for view in page.moods],
    }


def _owners(shoot: Shoot) -> dict[str, str]:
    """Return by name whose pictures they are: "ours" would be the wrong word on a sheet that others read."""
    client = {Whose.CLIENT.value: str(shoot.client)} if shoot.client else {}
    return {Whose.STUDIO.value: shoot.studio.name, **client}


def mood_paper(
    view: MoodView, *, height: float = FIELD_HEIGHT, owners: Mapping[str, str] | None = None
) -> dict[str, Any]:
    """Return one mood of the sheet. No query."""
    fields = []
    shown = [card for card in view.cards if card.reference.preview_key]
    for start in range(0, len(shown), MOST_IN_A_FIELD):
        fields.append(_field(view, shown[start : start + MOST_IN_A_FIELD], height, owners or {}))
    return {
        "name": view.mood.name,
        "words": view.mood.words,
        "brightness": view.mood.brightness,
        "light": asdict(view.light),
        "sentence": view.sentence,
        "place_words": view.place_words,
        "fields": fields or [{"name": view.mood.name, "width": FIELD_WIDTH, "height": 0.0, "pictures": []}],
        "pictures": [picture for field in fields for picture in field["pictures"]],
        "ticks": [{"place": card.place, "number": card.number} for card in view.ticks],
        "colours": [asdict(swatch) for swatch in view.colours],
        # The column of words has room for so many lines.
        "named": 8 - 2 * (len(view.mood.name) > LONG_NAME) - 3 * (len(view.mood.words) > LONG_WORDS),
        "name_is_long": len(view.mood.name) > LONG_NAME,
        "words_are_long": len(view.mood.words) > LONG_WORDS,
    }


def _field(view: MoodView, shown: list[ReferenceCard], height: float, owners: Mapping[str, str]) -> dict[str, Any]:
    """Return the pictures of one page with their places."""
    ratios = [card.reference.width_px / card.reference.height_px for card in shown]
    tiles = justified(ratios, width=FIELD_WIDTH, height=height, gap=GAP)
    return {
        "name": view.mood.name,
        "width": max(tile.x + tile.width for tile in tiles),
        "height": max(tile.bottom for tile in tiles),
        "pictures": [
            {
                "pk": card.reference.pk,
                "key": card.reference.preview_key,
                "number": card.number,
                "note": card.reference.note,
                "whose": owners.get(card.reference.whose, card.whose),
                "credit": card.reference.credit,
                "sentence": card.sentence,
                "tile": asdict(tile),
            }
            for card, tile in zip(shown, tiles, strict=True)
        ],
    }
