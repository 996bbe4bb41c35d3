"""The main job of the demo, trail-running packs: from the call to the days before the second shoot day."""

from __future__ import annotations

import io
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any

from shoots.brief import actions as brief
from shoots.call import actions as call
from shoots.callsheet import actions as callsheet
from shoots.callsheet.models import SheetKind
from shoots.delivery import actions as delivery
from shoots.demo.agreed import agree_brief, ask_for_more
from shoots.demo.drawings import draw
from shoots.demo.references import drawn
from shoots.demo.stage import DAYS, Known, issue, quoted, send, settle_terms
from shoots.invoices import actions as invoices
from shoots.invoices.models import InvoiceKind
from shoots.lighting import actions as lighting
from shoots.mood import actions as mood
from shoots.quotes.actions import answers, drafts
from shoots.quotes.models import Quote
from shoots.schedule import actions as schedule
from shoots.shoot import actions as shoots
from shoots.shoot.models import BookingKind, FactKind, Shoot, ShootDay
from shoots.shotlist.actions import parts, templates
from shoots.shotlist.actions import shots as shotlist
from shoots.shotlist.models import Outfit, Product, Subject


def packs_job(known: Known) -> None:
    """The packs: from the call to the day before the second shoot day."""
    owner = known.owner
    client = known.clients["scarp"]
    mara = client.contacts.get(name="Mara Ellwick")
    shoot = shoots.start_shoot(
        studio=known.studio,
        title="Packs for bad weather",
        client=client,
        contact=mara,
        by=owner,
        now=known.at(-38, "10:20"),
    )
    _call(known, shoot)
    _plan(known, shoot)
    first, second = _dates(known, shoot)
    _quotes(known, shoot)
    _deposit(known, shoot)
    _templates(known)
    _parts(known, shoot)
    days = {1: first, 2: second}
    # The client asks for the eleventh shot when the brief comes back; the twelfth is an idea from after their yes.
    shots = known.facts["shots"]
    _shots(known, shoot, days, shots[:10], now=known.at(-34))
    agree_brief(known, shoot, put_right=lambda now: _shots(known, shoot, days, shots[10:11], now=now))
    _shots(known, shoot, days, shots[11:], now=known.at(-27))
    _bookings(known, shoot)
    for day in (first, second):
        schedule.draft_plan(day=ShootDay.objects.get(pk=day.pk), by=owner, now=known.at(-12))
    _sheet(known, first, SheetKind.ADVANCE, now=known.at(-9, "12:00"))
    _sheet(known, first, SheetKind.FINAL, now=known.at(-7, "14:30"), changed="Call half an hour earlier for the cloud")
    _first_day(known, shoot, ShootDay.objects.get(pk=first.pk))
    ask_for_more(known, shoot)
    _sheet(known, second, SheetKind.ADVANCE, now=known.at(-1, "11:00"))
    mood.share_sheet(
        shoot=shoot,
        email="mara.ellwick@example.com",
        name="Mara Ellwick",
        message="This is how the two days are to feel. Does the calendar window belong to it?",
        by=owner,
        now=known.at(-35, "16:00"),
    )


def _call(known: Known, shoot: Shoot) -> None:
    made = call.begin_call(
        studio=known.studio,
        shoot=shoot,
        caller=known.facts["call"]["caller"],
        notes=known.facts["call"]["notes"].strip(),
        by=known.owner,
        now=known.at(-38, "10:12"),
    )
    # The moods get names of their own, and two drafts are said better elsewhere; what needs a second look waits.
    for draft in made.drafts.filter(kind="mood"):
        call.dismiss_draft(draft=draft, by=known.owner, now=known.at(-38, "10:31"))
    for draft in made.drafts.filter(kind__in=["product", "shape"]):
        if draft.value in ({"name": "trail packs"}, {"shape": "landscape banner"}):
            call.dismiss_draft(draft=draft, by=known.owner, now=known.at(-38, "10:32"))
    # Which shape is for what was agreed while she was on the phone: the shots are measured against it.
    together = next(n for n, line in enumerate(made.notes.splitlines(), start=1) if "for stories" in line)
    for draft in made.drafts.filter(line_no=together, kind__in=["shape", "placement"]):
        call.accept_draft(draft=draft, by=known.owner, now=known.at(-38, "10:33"))
    call.accept_plain(call=made, by=known.owner, now=known.at(-38, "10:35"))


def _plan(known: Known, shoot: Shoot) -> None:
    facts, owner = known.facts, known.owner
    written = brief.begin_brief(shoot=shoot)
    changes = {**facts["brief"], **facts["brief_first"], "budget": Decimal(facts["brief"]["budget"])}
    brief.edit_brief(shoot=shoot, changes=changes, seen_version=written.version, by=owner, now=known.at(-37))
    moods = {}
    for entry in facts["moods"]:
        moods[entry["key"]] = brief.add_mood(
            shoot=shoot,
            name=entry["name"],
            words=entry["words"],
            brightness=entry["brightness"],
            by=owner,
            now=known.at(-37),
        )
    for number, entry in enumerate(facts["references"]):
        mood.add_reference(
            shoot=shoot,
            mood=moods[entry["mood"]],
            file=drawn(entry["picture"], seed=number + 3),
            name=f"{entry['picture']}.jpg",
            whose=entry["whose"],
            credit=entry["credit"],
            note=entry["note"],
            within_s=1.0,
            by=owner,
            now=known.at(-36),
        )
    for entry in facts["setups"]:
        fields = {
            name: value
            for name, value in entry.items()
            if name not in {"key", "lamps", "panels", "lens", "nd", "before_sunset"}
        }
        fields |= {
            "mood": moods[entry["mood"]],
            "place": known.places[entry["place"]],
            "spot": known.spots.get(entry.get("spot", "")),
            "camera": known.kit["cameras"][0],
            "lens": known.kit["lenses"][entry.get("lens", 0)],
            "shoot_time": known.by_sunset(entry["place"], DAYS[entry["place"]], minus=entry["before_sunset"]),
        }
        if "nd" in entry:
            fields["nd"] = known.kit["filters"][entry["nd"]]
        setup = lighting.add_setup(shoot=shoot, by=owner, now=known.at(-20), **fields)
        lamps = []
        for lamp in entry["lamps"]:
            placed = {name: value for name, value in lamp.items() if name not in {"lamp", "modifier", "gel"}}
            placed |= {
                "lamp": known.kit["lights"][lamp["lamp"]],
                "modifier": known.kit["modifiers"][lamp["modifier"]],
                "stand": known.kit["stands"][0],
            }
            if "gel" in lamp:
                placed["gel"] = known.kit["filters"][lamp["gel"]]
            lamps.append(lighting.place_lamp(setup=setup, by=owner, now=known.at(-20), **placed))
        for panel in entry.get("panels", ()):
            placed = {**panel, "panel": known.kit["panels"][panel["panel"]]}
            if "for_lamp" in panel:
                placed["for_lamp"] = lamps[panel["for_lamp"]]
            if "stand" in panel:
                placed["stand"] = known.kit["stands"][panel["stand"]]
            lighting.place_panel(setup=setup, by=owner, now=known.at(-20), **placed)


def _dates(known: Known, shoot: Shoot) -> tuple[ShootDay, ShootDay]:
    """Return the quarry day, shot a week ago, and the reservoir day in three days; a second option was released."""
    owner = known.owner
    pencilled = known.at(-36)
    first = shoots.pencil_day(
        shoot=shoot,
        date=known.day(DAYS["quarry"]),
        place=known.places["quarry"],
        held_until=known.day(-25),
        call_time=known.by_sunset("quarry", DAYS["quarry"], minus="5:20"),
        wrap_time=known.by_sunset("quarry", DAYS["quarry"], plus="0:55"),
        by=owner,
        now=pencilled,
    )
    spare = shoots.pencil_day(
        shoot=shoot,
        date=known.day(-5),
        place=known.places["quarry"],
        option_rank=2,
        held_until=known.day(-25),
        by=owner,
        now=pencilled,
    )
    second = shoots.pencil_day(
        shoot=shoot,
        date=known.day(DAYS["reservoir"]),
        place=known.places["reservoir"],
        held_until=known.day(-25),
        call_time=known.by_sunset("reservoir", DAYS["reservoir"], minus="4:40"),
        wrap_time=known.by_sunset("reservoir", DAYS["reservoir"], plus="0:45"),
        by=owner,
        now=pencilled,
    )
    shoots.confirm_day(day=first, by=owner, now=known.at(-29))
    shoots.confirm_day(day=second, by=owner, now=known.at(-29))
    shoots.release_day(day=spare, by=owner, now=known.at(-29))
    return first, second


def _quotes(known: Known, shoot: Shoot) -> None:
    """Three versions: the whole wish, without styling, and the one that was accepted."""
    settle_terms(
        known,
        shoot,
        now=known.at(-36),
        **known.facts["terms"],
    )
    whole = [
        ("Photography, day of up to 9 hours", "2"),
        ("Each hour after the day", "0"),
        ("Preparation, recce and light plan", "6"),
        ("Finishing, each picture", "13"),
        ("A flare added", "2"),
        ("Rear light warmed", "2"),
        ("Licence as set out", "1"),
        ("First assistant", "2"),
        ("Make-up and styling", "2"),
        ("Third battery head", "2"),
        ("Travel by car", "148"),
        ("Place permits at cost", "1"),
        ("Meals and parking at cost, 10 % handling", "1"),
    ]
    to = "mara.ellwick@example.com"
    quote = drafts.start_quote(shoot=shoot, by=known.owner, now=known.at(-36))
    quoted(known, quote, whole, now=known.at(-36))
    changes = {
        "introduction": "Two days, two looks: the rim in bad weather, the wall in the first warm evening.",
        "conditions": "One round of changes to each picture is included.\nIf the weather on the day is against the "
        "look, we move to the next free day; crew already booked is charged at half.",
    }
    quote.refresh_from_db()
    drafts.edit_quote(
        quote=quote, changes=changes, seen_version=quote.version, by=known.owner, now=known.at(-36, "15:00")
    )
    quote = send(known, quote, to=to, message="As we said on the phone.", now=known.at(-35))
    quote = drafts.copy_quote(quote=quote, by=known.owner, now=known.at(-33))
    quoted(known, quote, [line for line in whole if line[0] != "Make-up and styling"], now=known.at(-33))
    quote = send(known, quote, to=to, message="Without styling, as you asked.", now=known.at(-33, "17:00"))
    quote = drafts.copy_quote(quote=quote, by=known.owner, now=known.at(-31))
    last = [("Make-up and styling", "1") if line[0] == "Make-up and styling" else line for line in whole]
    quoted(known, quote, last, now=known.at(-31))
    quote.refresh_from_db()
    drafts.edit_quote(
        quote=quote,
        changes={"discount": Decimal(180), "discount_reason": "Both days together"},
        seen_version=quote.version,
        by=known.owner,
        now=known.at(-31),
    )
    quote = send(known, quote, to=to, message="Styling on the first day only.", now=known.at(-31, "12:00"))
    answers.accept_quote(quote=quote, name="Mara Ellwick", address="192.0.2.17", now=known.at(-30, "08:42"))


def _deposit(known: Known, shoot: Shoot) -> None:
    quote = Quote.objects.filter(shoot=shoot).accepted().get()
    bill = invoices.draft_from_quote(quote=quote, kind=InvoiceKind.DEPOSIT, by=known.owner, now=known.at(-29))
    bill = issue(known, bill, to="accounts.scarp@example.com", name="Col Ellwick", now=known.at(-29))
    invoices.record_payment(
        invoice=bill,
        amount=bill.payable or Decimal(0),
        received_date=known.day(-20),
        method="Bank transfer",
        reference=bill.number or "",
        by=known.owner,
        now=known.at(-20),
    )


def _shots(
    known: Known, shoot: Shoot, days: dict[int, ShootDay], entries: list[dict[str, Any]], *, now: datetime
) -> None:
    moods = {mood.name: mood for mood in shoot.moods.all()}
    setups = {setup.name: setup for setup in shoot.setups.all()}
    mood_names = {entry["key"]: entry["name"] for entry in known.facts["moods"]}
    setup_names = {entry["key"]: entry["name"] for entry in known.facts["setups"]}
    for entry in entries:
        fields = {name: value for name, value in entry.items() if name not in {"mood", "setup", "day", "picture"}}
        fields["finishing"] = [parts.FinishingWanted(what) for what in entry.get("finishing", [])]
        day = days[entry["day"]]
        shotlist.add_shot(
            shoot=shoot,
            by=known.owner,
            now=now,
            **fields,
            mood=moods[mood_names[entry["mood"]]],
            setup=setups[setup_names[entry["setup"]]],
            day=day,
            place=day.place,
        )


def _templates(known: Known) -> None:
    """Lists that the studio kept earlier, in the words of nobody's shoot."""
    for entry in known.facts["shot_templates"]:
        templates.save_template(studio=known.studio, by=known.owner, now=known.at(-200), **entry)


def _parts(known: Known, shoot: Shoot) -> None:
    """What the shots pick from: who is in them, what they wear, and the products with their samples."""
    for entry in known.facts["subjects"]:
        fields = {"name": entry["name"], "person": known.people[entry["person"]]}
        parts.add_part(model=Subject, shoot=shoot, fields=fields, by=known.owner, now=known.at(-34))
    for entry in known.facts["outfits"]:
        parts.add_part(model=Outfit, shoot=shoot, fields=entry, by=known.owner, now=known.at(-34))
    for entry in known.facts["products"]:
        fields = {"name": entry["name"], "note": entry["note"]}
        product = parts.add_part(model=Product, shoot=shoot, fields=fields, by=known.owner, now=known.at(-34))
        for piece in entry["samples"]:
            fields = {name: value for name, value in piece.items() if name not in {"due", "arrived"}}
            fields |= {f"{name}_date": known.day(piece[name]) for name in ("due", "arrived") if name in piece}
            parts.add_sample(product=product, fields=fields, by=known.owner, now=known.at(-33))


def _bookings(known: Known, shoot: Shoot) -> None:
    wanted = [
        (BookingKind.CREW, "bea", "First assistant", "Tape, clamps, two rain covers for the heads", True),
        (BookingKind.CREW, "rhona", "Make-up and styling", "Spray bottle, towel, the grey shell jacket", True),
        (BookingKind.TALENT, "leo", "Runner", "Two pairs of shoes, black shorts, dry socks", True),
    ]
    for kind, key, what, bring, is_confirmed in wanted:
        booking = shoots.hold_booking(
            shoot=shoot,
            kind=kind,
            person=known.people[key],
            what=what,
            bring=bring,
            held_until=known.day(-22),
            by=known.owner,
            now=known.at(-29),
        )
        if is_confirmed:
            shoots.confirm_booking(booking=booking, by=known.owner, now=known.at(-26))


def _sheet(known: Known, day: ShootDay, kind: SheetKind, *, now: datetime, changed: str = "") -> None:
    callsheet.issue_sheet(
        day=ShootDay.objects.select_related("shoot", "studio", "place").get(pk=day.pk),
        kind=kind,
        what_changed=changed,
        by=known.owner,
        now=now,
    )


def _first_day(known: Known, shoot: Shoot, day: ShootDay) -> None:
    """The quarry was shot, and four finished pictures went to the client as a first look."""
    owner = known.owner
    shots = list(shoot.shots.filter(day=day).order_by("position"))
    for minutes, shot in enumerate(shots):
        taken = known.at(-6, "14:10") + timedelta(minutes=45 * minutes)
        shotlist.mark_got(shot=shot, is_got=True, by=owner, now=taken)
    shoots.wrap_day(day=day, by=owner, now=known.at(-6, "19:10"))
    shoots.record_fact(
        shoot=shoot,
        kind=FactKind.PROOFS_SENT,
        happened_at=known.at(-5, "11:00"),
        said_by="Tamsin Orrel",
        evidence="Contact sheet of the quarry day, by mail",
        by=owner,
        now=known.at(-5, "11:05"),
    )
    pictures = []
    for number, entry in enumerate(known.facts["shots"], 1):
        if "picture" not in entry:
            continue
        file = io.BytesIO(draw(entry["picture"], seed=number * 7))
        name = f"{number:02}-{entry['picture']}.jpg"
        pictures.append(delivery.add_picture(shoot=shoot, file=file, name=name, by=owner, now=known.at(-2)))
    sent = delivery.send_delivery(
        shoot=shoot,
        title="Quarry day, first four",
        message="The first four from the rim. The rest follows with the second day.",
        pictures=pictures,
        to="mara.ellwick@example.com",
        to_name="Mara Ellwick",
        by=owner,
        now=known.at(-2, "16:00"),
    )
    delivery.note_fetch(delivery=sent, picture=pictures[0], now=known.at(-1, "09:12"))
