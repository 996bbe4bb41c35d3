"""What somebody did on a shoot, as a sentence's predicate: "pencilled a day", "placed 7 lights"."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import ngettext_lazy

from shoots.trail.queries import ShootDeed


def _n(one: str, many: str) -> Any:
    return ngettext_lazy(one, many, "n")


#: By the record's model and the deed as the trail holds it; `%(n)d` counts the same deed done several times.
DEED_WORDS = {
    ("shoot", "shoot_started"): _n("began the shoot", "began the shoot"),
    ("shoot", "shoot_edited"): _n("changed parties and terms", "changed parties and terms %(n)d times"),
    ("shoot", "shoot_put_away"): _n("put the shoot away", "put the shoot away"),
    ("shoot", "shoot_taken_back"): _n("took the shoot out again", "took the shoot out again"),
    ("shoot", "holds_released"): _n("gave back everything held", "gave back everything held"),
    ("call", "call_begun"): _n("took down a call", "took down %(n)d calls"),
    ("call", "call_noted"): _n("added to the notes of the call", "added to the notes of the call"),
    ("call", "call_taken_up"): _n("made a shoot of the call", "made a shoot of %(n)d calls"),
    ("draft", "draft_accepted"): _n("took over a line of the notes", "took over %(n)d lines of the notes"),
    ("draft", "draft_dismissed"): _n("dismissed a line of the notes", "dismissed %(n)d lines of the notes"),
    ("draft", "draft_reopened"): _n("opened a line of the notes again", "opened %(n)d lines of the notes again"),
    ("brief", "edited"): _n("wrote on the brief", "wrote on the brief %(n)d times"),
    ("mood", "added"): _n("added a mood", "added %(n)d moods"),
    ("mood", "edited"): _n("changed a mood", "changed moods %(n)d times"),
    ("mood", "removed"): _n("removed a mood", "removed %(n)d moods"),
    ("shot", "added"): _n("added a shot", "added %(n)d shots"),
    ("shot", "edited"): _n("changed a shot", "changed shots %(n)d times"),
    ("shot", "removed"): _n("removed a shot", "removed %(n)d shots"),
    ("shot", "got"): _n("got a shot", "got %(n)d shots"),
    ("shot", "not got"): _n("marked a shot as not got after all", "marked %(n)d shots as not got after all"),
    ("shot", "edited together"): _n("changed a shot", "changed %(n)d shots together"),
    ("shot", "put back"): _n("put a shot back as it was", "put %(n)d shots back as they were"),
    ("shoot", "shots added"): _n("took over shots from a table", "took over shots from tables %(n)d times"),
    ("shoot", "template used"): _n("put a template's shots on the list", "used templates %(n)d times"),
    ("product", "added"): _n("named a product", "named %(n)d products"),
    ("product", "edited"): _n("changed a product", "changed products %(n)d times"),
    ("product", "removed"): _n("removed a product", "removed %(n)d products"),
    ("outfit", "added"): _n("named an outfit", "named %(n)d outfits"),
    ("outfit", "edited"): _n("changed an outfit", "changed outfits %(n)d times"),
    ("outfit", "removed"): _n("removed an outfit", "removed %(n)d outfits"),
    ("subject", "added"): _n("named who is in the pictures", "named %(n)d people for the pictures"),
    ("subject", "edited"): _n("changed who is in the pictures", "changed who is in the pictures %(n)d times"),
    ("subject", "removed"): _n("removed somebody from the pictures", "removed %(n)d people from the pictures"),
    ("sample", "added"): _n("noted a sample", "noted %(n)d samples"),
    ("sample", "edited"): _n("changed a sample", "changed samples %(n)d times"),
    ("sample", "arrived"): _n("received a sample", "received %(n)d samples"),
    ("sample", "removed"): _n("removed a sample", "removed %(n)d samples"),
    ("setup", "added"): _n("planned a setup", "planned %(n)d setups"),
    ("setup", "edited"): _n("changed a setup", "changed setups %(n)d times"),
    ("setup", "removed"): _n("removed a setup", "removed %(n)d setups"),
    ("setup", "read"): _n("noted a meter reading", "noted %(n)d meter readings"),
    ("setup", "reading removed"): _n("struck a meter reading", "struck %(n)d meter readings"),
    ("shoot", "batteries_packed"): _n("counted the batteries to pack", "counted the batteries to pack %(n)d times"),
    ("placedlamp", "placed"): _n("placed a light", "placed %(n)d lights"),
    ("placedlamp", "edited"): _n("moved a light", "moved lights %(n)d times"),
    ("placedlamp", "removed"): _n("took a light out", "took %(n)d lights out"),
    ("shootday", "day_pencilled"): _n("pencilled a day", "pencilled %(n)d days"),
    ("shootday", "day_confirmed"): _n("confirmed a day", "confirmed %(n)d days"),
    ("shootday", "day_edited"): _n("changed a day", "changed days %(n)d times"),
    ("shootday", "day_released"): _n("gave a day back", "gave %(n)d days back"),
    ("shootday", "day_wrapped"): _n("wrapped a day", "wrapped %(n)d days"),
    ("shootday", "day_unwrapped"): _n("took a wrap back", "took %(n)d wraps back"),
    ("shootday", "plan_drafted"): _n("drafted the plan of a day", "drafted the plan of %(n)d days"),
    ("dayblock", "added"): _n("added a block to a day", "added %(n)d blocks to a day"),
    ("dayblock", "edited"): _n("changed the plan of a day", "changed the plan of a day %(n)d times"),
    ("dayblock", "removed"): _n("took a block out of a day", "took %(n)d blocks out of a day"),
    ("booking", "booking_pencilled"): _n("pencilled a booking", "pencilled %(n)d bookings"),
    ("booking", "booking_confirmed"): _n("confirmed a booking", "confirmed %(n)d bookings"),
    ("booking", "booking_edited"): _n("changed a booking", "changed bookings %(n)d times"),
    ("booking", "booking_released"): _n("gave a booking back", "gave %(n)d bookings back"),
    ("fact", "fact_recorded"): _n("wrote down what happened", "wrote down %(n)d things that happened"),
    ("fact", "fact_struck"): _n("struck what was written down", "struck %(n)d things that were written down"),
    ("usageterms", "settled"): _n("settled the usage", "settled the usage"),
    ("usageterms", "edited"): _n("changed the usage", "changed the usage %(n)d times"),
    ("quote", "begun"): _n("began a quote", "began %(n)d quotes"),
    ("quote", "edited"): _n("wrote on the quote", "wrote on the quote %(n)d times"),
    ("quote", "lines edited"): _n("changed lines of the quote", "changed lines of the quote %(n)d times"),
    ("quote", "line added"): _n("added a line to the quote", "added %(n)d lines to the quote"),
    ("quote", "discarded"): _n("threw a draft quote away", "threw %(n)d draft quotes away"),
    ("quote", "sent"): _n("sent the quote", "sent %(n)d quotes"),
    ("quote", "link closed"): _n("closed the link of the quote", "closed %(n)d links of quotes"),
    ("quote", "accepted"): _n("accepted the quote", "accepted %(n)d quotes"),
    ("quote", "declined"): _n("declined the quote", "declined %(n)d quotes"),
    ("licence", "granted"): _n("granted the licence", "granted %(n)d licences"),
    ("licence", "started"): _n("started the licence's time", "started the time of %(n)d licences"),
    ("licence", "fulfilled"): _n("put the licence into force", "put %(n)d licences into force"),
    ("licence", "ended"): _n("ended the licence", "ended %(n)d licences"),
    ("callsheet", "callsheet_issued"): _n("sent the call sheet", "sent %(n)d call sheets"),
    ("sheetcopy", "callsheet_confirmed"): _n("has the call sheet", "have the call sheet"),
    ("picture", "added"): _n("added a finished picture", "added %(n)d finished pictures"),
    ("picture", "tied"): _n("tied a picture to its shot", "tied %(n)d pictures to their shots"),
    ("picture", "withdrawn"): _n("took a picture out", "took %(n)d pictures out"),
    ("delivery", "sent"): _n("delivered pictures", "delivered pictures %(n)d times"),
    ("delivery", "closed"): _n("closed a delivery's link", "closed the links of %(n)d deliveries"),
    ("invoice", "drafted"): _n("drafted an invoice", "drafted %(n)d invoices"),
    ("invoice", "edited"): _n("changed a draft invoice", "changed draft invoices %(n)d times"),
    ("invoice", "discarded"): _n("threw a draft invoice away", "threw %(n)d draft invoices away"),
    ("invoice", "issued"): _n("issued an invoice", "issued %(n)d invoices"),
    ("invoice", "sent"): _n("mailed an invoice", "mailed %(n)d invoices"),
    ("invoice", "paid"): _n("noted a payment", "noted %(n)d payments"),
}


def deed_words(deed: ShootDeed) -> str:
    """Return what was done, without who did it; plain words of the record and the deed where the table has none."""
    known = DEED_WORDS.get((deed.model, deed.key))
    if known is None:
        again = _(", %(n)d times") % {"n": deed.times} if deed.times > 1 else ""
        return f"{deed.deed}: {deed.thing.lower()}{again}"
    return str(known % {"n": deed.times})
