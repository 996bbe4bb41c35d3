"""What falls due, in words: one line of today's page, and the subject and text of a reminder. No queries."""

from __future__ import annotations

from datetime import date

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from shoots.desk.core.due import MatterKind
from shoots.desk.queries.days import date_words, day_words
from shoots.desk.queries.due import DueItem


def matter_words(item: DueItem, *, today: date) -> str:
    """Return what falls due as a sentence without a full stop."""
    matter, named = item.matter, item.named
    left = (matter.due - today).days
    known = {
        "label": named.label,
        "day": date_words(named.day, today) if named.day else "",
        "due": day_words(matter.due, today),
        "n": abs(left),
    }
    match matter.kind:
        case MatterKind.HOLD_ENDING:
            return _hold_words(item, left) % known
        case MatterKind.BRIEF_UNANSWERED:
            return _("Version %(label)s of the brief waits for their yes") % known
        case MatterKind.BRIEF_CORRECTED:
            return _("They said what isn’t right with version %(label)s of the brief") % known
        case MatterKind.QUOTE_LAPSING:
            return _("Quote %(label)s lapses, its last day is %(due)s") % known
        case MatterKind.ADVANCE_SHEET:
            return _("Send the advance call sheet for %(day)s") % known
        case MatterKind.FINAL_SHEET:
            return _("Send the final call sheet for %(day)s, by 16:00 the day before") % known
        case MatterKind.SELECTION_OVERDUE:
            return _("Their selection is due %(due)s") % known if left >= 0 else _("Their selection is overdue")
        case MatterKind.DELIVERY_DUE:
            return _("Deliver the pictures") if left >= 0 else _("The pictures are late")
        case MatterKind.INVOICE_TO_SEND:
            return _("Invoice what was delivered")
        case MatterKind.INVOICE_DUE:
            return _("Invoice %(label)s is due") % known
        case MatterKind.INVOICE_OVERDUE:
            late = ngettext(
                "Invoice %(label)s is %(n)d day overdue", "Invoice %(label)s is %(n)d days overdue", abs(left)
            )
            return late % known if left < 0 else _("Invoice %(label)s is due") % known
        case MatterKind.LICENCE_ENDING:
            ends = ngettext("Licence %(label)s ends in %(n)d day", "Licence %(label)s ends in %(n)d days", left)
            return ends % known if left > 0 else _("Licence %(label)s ends today") % known


def _hold_words(item: DueItem, left: int) -> str:
    if item.matter.subject.startswith("hold:booking:"):
        return _("%(label)s is held until %(due)s only") if left >= 0 else _("%(label)s was held until %(due)s")
    return _("%(day)s is held until %(due)s only") if left >= 0 else _("%(day)s was held until %(due)s")


def doing_words(item: DueItem) -> str:
    """Return the words of the link to the place where it is done."""
    return {
        MatterKind.HOLD_ENDING: _("Confirm or hold on"),
        MatterKind.BRIEF_UNANSWERED: _("Chase"),
        MatterKind.BRIEF_CORRECTED: _("Put it right"),
        MatterKind.QUOTE_LAPSING: _("Chase"),
        MatterKind.ADVANCE_SHEET: _("Send"),
        MatterKind.FINAL_SHEET: _("Send"),
        MatterKind.SELECTION_OVERDUE: _("Chase"),
        MatterKind.DELIVERY_DUE: _("Deliver"),
        MatterKind.INVOICE_TO_SEND: _("Send"),
        MatterKind.INVOICE_DUE: _("Watch"),
        MatterKind.INVOICE_OVERDUE: _("Chase"),
        MatterKind.LICENCE_ENDING: _("Renew"),
    }[item.matter.kind]
