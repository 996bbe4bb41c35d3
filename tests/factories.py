"""One function a model: small, explicit, no randomness. Each makes what it needs and takes what you give."""

from __future__ import annotations

import itertools
from datetime import UTC, date, datetime
from decimal import Decimal
from typing import Any

from shoots.brief.models import Brief, Mood
from shoots.kit.models import Battery, Camera, Filter, Lamp, Lens, Modifier, Stand
from shoots.lighting.models import PlacedLamp, Setup
from shoots.members.core import Role
from shoots.members.models import Member, Studio, User
from shoots.people.models import Client, Contact, Person, PersonKind
from shoots.places.models import Place, Spot
from shoots.shoot.models import Booking, BookingKind, Shoot, ShootDay
from shoots.shotlist.actions.parts import PARTS, find_or_add
from shoots.shotlist.models import Product, Sample, Shot

_count = itertools.count(1)
NOW = datetime(2026, 5, 14, 9, 30, tzinfo=UTC)


def make_studio(**fields: Any) -> Studio:
    return Studio.objects.create(
        **{
            "name": "Halden Photography",
            "address": "4 Cutler Yard\nSheffield S1 0AB",
            "email": "studio@example.com",
            "phone": "0114 496 0110",
            "vat_number": "GB999999973",
            "iban": "GB29NWBK60161331926819",
            "account_name": "Halden Photography",
            **fields,
        }
    )


def make_user(**fields: Any) -> User:
    n = next(_count)
    return User.objects.create_user(
        **{
            "email": f"person{n}@example.com",
            "password": "a long enough phrase",
            "name": f"Person {n}",
            **fields,
        }
    )


def make_member(studio: Studio, role: Role = Role.OWNER, **fields: Any) -> Member:
    return Member.objects.create(studio=studio, role=role, user=fields.pop("user", None) or make_user(**fields))


def make_client(studio: Studio, **fields: Any) -> Client:
    return Client.objects.create(
        studio=studio, **{"name": "Fellside Packs", "address": "9 Mill Lane\nKendal LA9 0AA", **fields}
    )


def make_contact(client: Client, **fields: Any) -> Contact:
    return Contact.objects.create(
        studio=client.studio,
        client=client,
        **{
            "name": "Mara Quill",
            "email": "mara@example.com",
            "phone": "07700 900111",
            "approves": True,
            **fields,
        },
    )


def make_person(studio: Studio, **fields: Any) -> Person:
    n = next(_count)
    return Person.objects.create(
        studio=studio,
        **{
            "kind": PersonKind.CREW,
            "name": f"Crew {n}",
            "trade": "Assistant",
            "email": f"crew{n}@example.com",
            "phone": "07700 900222",
            **fields,
        },
    )


def make_place(studio: Studio, **fields: Any) -> Place:
    return Place.objects.create(
        studio=studio,
        **{
            "name": "Quarry rim",
            "address": "Above Mill Lane",
            "latitude": 53.34,
            "longitude": -1.63,
            "hospital": "General Hospital, 0114 496 0999",
            **fields,
        },
    )


def make_spot(place: Place, **fields: Any) -> Spot:
    return Spot.objects.create(
        studio=place.studio, place=place, **{"name": "North edge", "bearing_deg": 20.0, **fields}
    )


def make_shoot(studio: Studio, **fields: Any) -> Shoot:
    n = next(_count)
    client = fields.pop("client", None) or make_client(studio)
    shoot = Shoot.objects.create(
        studio=studio, client=client, **{"code": f"26-{n:03}", "title": "Packs for the hills", **fields}
    )
    Brief.objects.create(studio=studio, shoot=shoot)
    return shoot


def make_day(shoot: Shoot, **fields: Any) -> ShootDay:
    return ShootDay.objects.create(studio=shoot.studio, shoot=shoot, **{"date": date(2026, 6, 9), **fields})


def make_booking(shoot: Shoot, **fields: Any) -> Booking:
    kind = fields.get("kind", BookingKind.CREW)
    if kind in (BookingKind.CREW, BookingKind.TALENT) and "person" not in fields:
        fields["person"] = make_person(shoot.studio, kind=kind)
    return Booking.objects.create(studio=shoot.studio, shoot=shoot, **{"kind": kind, **fields})


def make_mood(shoot: Shoot, **fields: Any) -> Mood:
    return Mood.objects.create(
        studio=shoot.studio,
        shoot=shoot,
        **{"name": "Storm coming", "words": "wet stone, one hard light", "brightness": 15, **fields},
    )


def make_camera(studio: Studio, **fields: Any) -> Camera:
    return Camera.objects.create(studio=studio, **{"name": "Full-frame body", **fields})


def make_lens(studio: Studio, **fields: Any) -> Lens:
    return Lens.objects.create(
        studio=studio,
        **{"name": "24-70 mm zoom", "shortest_mm": 24, "longest_mm": 70, "widest_f": 2.8, **fields},
    )


def make_lamp(studio: Studio, **fields: Any) -> Lamp:
    return Lamp.objects.create(
        studio=studio, **{"name": "300 Ws battery head", "energy_ws": 300, "guide_number_m": 45, **fields}
    )


def make_battery(studio: Studio, **fields: Any) -> Battery:
    return Battery.objects.create(studio=studio, **{"name": "Battery", **fields})


def make_modifier(studio: Studio, **fields: Any) -> Modifier:
    return Modifier.objects.create(
        studio=studio,
        **{
            "name": "95 cm octagonal box",
            "kind": "SOFTBOX",
            "width_m": 0.95,
            "height_m": 0.95,
            "factor_stops": -2.0,
            **fields,
        },
    )


def make_filter(studio: Studio, **fields: Any) -> Filter:
    return Filter.objects.create(
        studio=studio, **{"name": "Half CTO", "kind": "GEL", "shift_mired": 109, "loss_stops": 0.5, **fields}
    )


def make_stand(studio: Studio, **fields: Any) -> Stand:
    return Stand.objects.create(studio=studio, **{"name": "Light stand", **fields})


def make_setup(shoot: Shoot, **fields: Any) -> Setup:
    return Setup.objects.create(
        studio=shoot.studio, shoot=shoot, **{"name": "Rim of the quarry", "ambient_ev100": 12.0, **fields}
    )


def make_placed_lamp(setup: Setup, **fields: Any) -> PlacedLamp:
    lamp = fields.pop("lamp", None) or make_lamp(setup.studio)
    return PlacedLamp.objects.create(studio=setup.studio, setup=setup, lamp=lamp, **fields)


def make_shot(shoot: Shoot, **fields: Any) -> Shot:
    """Make a shot; `products`, `outfits` and `subjects` are rows or names."""
    n = next(_count)
    parts = {name: fields.pop(name) for name in PARTS if name in fields}
    shot = Shot.objects.create(
        studio=shoot.studio,
        shoot=shoot,
        **{"title": f"Runner with the pack {n}", "shapes": ["4:5"], "position": n, **fields},
    )
    for name, wanted in parts.items():
        getattr(shot, name).set(find_or_add(PARTS[name], shoot, wanted, by=None, now=NOW))
    return shot


def make_product(shoot: Shoot, **fields: Any) -> Product:
    return Product.objects.create(studio=shoot.studio, shoot=shoot, **{"name": "12 litre pack", **fields})


def make_sample(product: Product, **fields: Any) -> Sample:
    return Sample.objects.create(studio=product.studio, product=product, **{"size": "M", **fields})


TWENTY = Decimal(20)
