"""A day with its shots, setups and people, as plans and call sheets need one."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time
from typing import Any

from shoots.lighting.models import Setup
from shoots.members.models import Studio
from shoots.places.models import Place
from shoots.shoot.models import Booking, BookingKind, Shoot, ShootDay
from tests import factories


@dataclass
class Job:
    """A shoot of one day: two setups with two shots each at a quarry, an assistant, a stylist and a runner."""

    shoot: Shoot
    day: ShootDay
    place: Place
    rim: Setup
    slab: Setup
    bea: Booking
    rhona: Booking
    leo: Booking


def make_job(studio: Studio, **day: Any) -> Job:
    client = factories.make_client(studio)
    shoot = factories.make_shoot(studio, client=client, contact=factories.make_contact(client))
    place = factories.make_place(studio, parking="Two cars by the gate", permission="GIVEN")
    at = {"date": date(2026, 6, 9), "place": place, "call_time": time(10), "wrap_time": time(18), **day}
    made = factories.make_day(shoot, confirmed_at=factories.NOW, **at)
    rim = factories.make_setup(shoot, name="North rim", place=place, position=0)
    slab = factories.make_setup(shoot, name="Wet slab", place=place, position=1)
    shots = [(rim, 40, "Leo"), (rim, 30, "Leo"), (slab, 30, ""), (slab, 20, "")]
    for n, (setup, minutes, people) in enumerate(shots, start=1):
        factories.make_shot(
            shoot,
            title=f"Picture {n}",
            setup=setup,
            minutes=minutes,
            subjects=[people] if people else [],
            day=made,
            products=["12 litre pack"],
        )
    return Job(
        shoot,
        made,
        place,
        rim,
        slab,
        bea=held(shoot, "Bea Tolland", "First assistant", phone="07700 900161", diet="No nuts"),
        rhona=held(shoot, "Rhona Vell", "Make-up", phone="07700 900162", call_time=time(9, 30)),
        leo=held(shoot, "Leo Strand", "Runner", BookingKind.TALENT, phone="07700 900163", bring="Trail shoes"),
    )


def held(
    shoot: Shoot, name: str, job: str, kind: BookingKind = BookingKind.CREW, *, phone: str = "", **fields: Any
) -> Booking:
    """Confirm somebody for every day of a shoot; `diet` and `birth_date` go to the person, the rest to the booking."""
    own = {key: fields.pop(key) for key in ("diet", "birth_date", "email") if key in fields}
    email = own.pop("email", f"{name.split()[0].lower()}@example.com")
    person = factories.make_person(shoot.studio, kind=kind, name=name, phone=phone, email=email, **own)
    return factories.make_booking(shoot, kind=kind, person=person, what=job, confirmed_at=factories.NOW, **fields)
