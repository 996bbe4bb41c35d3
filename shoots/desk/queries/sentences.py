"""Codes of `desk.core` in words: where a shoot stands, what comes next, what is missing. No queries.

Each sentence is one translatable whole; days go in as `days.day_words` says them.
"""

from __future__ import annotations

from datetime import date

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from shoots.desk.core.standing import Lack, Missing, Next, Stage, Standing
from shoots.desk.queries.days import date_words, day_words


def stage_words(standing: Standing, *, today: date) -> str:
    """Return where a shoot stands, without a full stop: what comes next is said behind it."""
    return _Words(standing, today).stage()


def step_words(standing: Standing, *, today: date) -> str:
    """Return what comes next, beginning with "next:", or "" when nothing does."""
    words = _Words(standing, today).step()
    return _("next: %(step)s") % {"step": words} if words else ""


def lack_words(lack: Lack) -> str:
    """Return one missing thing as a sentence."""
    count = {"n": lack.count}
    match lack.code:
        case Missing.ANSWERS:
            return ngettext("%(n)d open question in the brief", "%(n)d open questions in the brief", lack.count) % count
        case Missing.CORRECTIONS:
            return _("What isn’t right with the brief is not put right yet")
        case Missing.SHOTS:
            return _("No shots on the list")
        case Missing.ACCEPTANCE:
            return _("The client's acceptance was never written down")
        case Missing.DATE:
            return _("No date")
        case Missing.DEPOSIT_INVOICE:
            return _("The deposit that was agreed is not invoiced")
        case Missing.SHEET:
            return _("No call sheet was sent")
        case Missing.MUST_SHOTS:
            return (
                ngettext("%(n)d must-have shot was not got", "%(n)d must-have shots were not got", lack.count) % count
            )
        case Missing.PICTURES:
            return ngettext("%(n)d shot is not delivered", "%(n)d shots are not delivered", lack.count) % count
        case Missing.INVOICE:
            return _("The invoice is not written")


class _Words:
    """The words of one standing."""

    def __init__(self, standing: Standing, today: date) -> None:
        self.standing = standing
        self.today = today
        shown = standing.label
        self.known = {
            "since": self._near(standing.since),
            "until": self._near(standing.until),
            "by": self._near(standing.step.by),
            "day": date_words(standing.day, today) if standing.day else "",
            "clock": standing.clock,
            "n": standing.count,
            "total": standing.total,
            "number": shown or standing.step.label,
            "next_number": standing.step.label,
            "next_n": standing.step.count,
        }

    def _near(self, day: date | None) -> str:
        return day_words(day, self.today) if day else ""

    def stage(self) -> str:
        return self._selling() or self._working() or self._after()

    def _selling(self) -> str:
        n = self.standing.count
        words = {
            Stage.NEW: _("Nothing is noted yet"),
            Stage.CALLED: ngettext(
                "%(n)d draft from the call waits for you", "%(n)d drafts from the call wait for you", n
            ),
            Stage.BRIEFING: ngettext(
                "The brief leaves %(n)d question open that moves the price",
                "The brief leaves %(n)d questions open that move the price",
                n,
            ),
            Stage.LISTING: _("The brief can be priced, the shots are not listed"),
            Stage.UNPRICED: ngettext(
                "%(n)d shot is listed, without a quote", "%(n)d shots are listed, without a quote", n
            ),
            Stage.BRIEF_SENT: _("Version %(number)s of the brief with the client since %(since)s"),
            Stage.BRIEF_CORRECTED: _("The client said %(since)s what isn’t right with the brief"),
            Stage.BRIEF_APPROVED: _("Version %(number)s of the brief was approved %(since)s"),
            Stage.QUOTE_DRAFT: _("The quote is being written"),
            Stage.QUOTE_SENT: _("Quote with the client since %(since)s"),
            Stage.QUOTE_LAPSED: _("The quote lapsed without an answer, its last day was %(since)s"),
            Stage.QUOTE_DECLINED: _("The client declined the quote %(since)s"),
            Stage.PLANNED: _("Being planned"),
            Stage.ACCEPTED: _("The quote was accepted %(since)s"),
        }
        found = words.get(self.standing.stage)
        return found % self.known if found else ""

    def _working(self) -> str:
        standing = self.standing
        second = standing.option_rank == 2
        held = standing.until is not None
        with_clock = bool(standing.clock)
        pencilled = {
            (False, False): _("Pencilled for %(day)s, first option"),
            (False, True): _("Pencilled for %(day)s, first option, held until %(until)s"),
            (True, False): _("Pencilled for %(day)s, second option"),
            (True, True): _("Pencilled for %(day)s, second option, held until %(until)s"),
        }
        words = {
            Stage.PENCILLED: pencilled[second, held],
            Stage.HOLD_LAPSED: _("%(day)s was held until %(until)s and is no longer sure"),
            Stage.CONFIRMED: _("Confirmed for %(day)s"),
            Stage.SHEET_SENT: (
                _("Call sheet out for %(day)s, call %(clock)s") if with_clock else _("Call sheet out for %(day)s")
            ),
            Stage.SHOOT_DAY: _("Shoot day, call %(clock)s") if with_clock else _("Shoot day"),
            Stage.DAY_PASSED: _("The shoot day, %(day)s, has passed"),
            Stage.PARTLY_SHOT: _("%(n)d of %(total)d days shot, the next is %(day)s"),
            Stage.WRAPPED: (
                _("Wrapped %(since)s with %(n)d of %(total)d shots got") if standing.total else _("Wrapped %(since)s")
            ),
            Stage.SELECTING: _("Proofs with the client since %(since)s"),
            Stage.FINISHING: self._finishing(),
            Stage.DELIVERED: _("Pictures delivered %(since)s"),
        }
        found = words.get(standing.stage)
        return found % self.known if found else ""

    def _finishing(self) -> str:
        standing = self.standing
        if standing.total:
            return _("%(n)d of %(total)d shots delivered")
        if standing.count:
            return ngettext("%(n)d picture is finished", "%(n)d pictures are finished", standing.count)
        if standing.step.code is Next.DELIVER:
            return _("Pictures approved %(since)s")
        return _("Selection made %(since)s, pictures being finished")

    def _after(self) -> str:
        standing = self.standing
        paid = standing.since is not None
        late = (self.today - standing.since).days if standing.since else 0
        ends = standing.until is not None
        overdue = (
            ngettext("Invoice %(number)s is %(late)d day overdue", "Invoice %(number)s is %(late)d days overdue", late)
            if standing.count < 2
            else ngettext(
                "%(n)d invoices are overdue, the oldest by %(late)d day",
                "%(n)d invoices are overdue, the oldest by %(late)d days",
                late,
            )
        )
        words = {
            Stage.INVOICED: _("Invoice %(number)s with the client since %(since)s"),
            Stage.OVERDUE: overdue,
            Stage.PAID: _("Paid %(since)s") if paid else _("Paid"),
            Stage.LICENSED: (
                (_("Paid %(since)s, licence running") if ends else _("Paid %(since)s, licensed without an end"))
                if paid
                else (_("Licence running") if ends else _("Licensed without an end"))
            ),
            Stage.LICENCE_ENDED: _("The licence has ended, its last day was %(since)s"),
            Stage.LOST: _("Lost %(since)s"),
            Stage.ON_HOLD: _("On hold since %(since)s"),
            Stage.POSTPONED: _("Postponed %(since)s"),
            Stage.CANCELLED: _("Cancelled %(since)s"),
            Stage.PUT_AWAY: _("Put away"),
        }
        return words[standing.stage] % {**self.known, "late": late}

    def step(self) -> str:
        step, stage = self.standing.step, self.standing.stage
        by = step.by is not None
        past = step.by is not None and step.by < self.today
        words = {
            Next.NOTHING: "",
            Next.TAKE_CALL: _("the call"),
            Next.READ_DRAFTS: _("keep or drop them"),
            Next.FILL_BRIEF: _("ask the client"),
            Next.LIST_SHOTS: _("the shot list"),
            Next.AWAIT_APPROVAL: _("their yes"),
            Next.MEND_BRIEF: _("put it right and send it again"),
            Next.WRITE_QUOTE: _("the quote"),
            Next.SEND_QUOTE: (
                _("their answer, or send version %(next_number)s")
                if stage is Stage.QUOTE_SENT
                else _("send it to the client")
            ),
            Next.AWAIT_ANSWER: _("their answer, by %(by)s") if by else _("their answer"),
            Next.SEND_QUOTE_AGAIN: _("ask them, and send it again"),
            Next.OFFER_ANEW: _("a new version, or note it as lost"),
            Next.SET_DATE: _("a new date") if stage is Stage.POSTPONED else _("a date"),
            Next.CONFIRM_DATE: _("confirm it by %(by)s") if by else _("confirm it"),
            Next.RENEW_HOLD: _("confirm it, hold it longer or let it go"),
            Next.BOOK_CREW: _("book the crew"),
            Next.CONFIRM_BOOKINGS: ngettext(
                "confirm the booking that is only pencilled",
                "confirm the %(next_n)d bookings that are only pencilled",
                step.count,
            ),
            Next.SEND_ADVANCE: (
                _("the advance call sheet, due since %(by)s") if past else _("the advance call sheet, by %(by)s")
            ),
            Next.SEND_FINAL: (
                _("the final call sheet, due since %(by)s") if past else _("the final call sheet, by 16:00 %(by)s")
            ),
            Next.GO_SHOOT: _("the day itself"),
            Next.WRAP_DAY: (
                _("mark it as wrapped when you are done") if stage is Stage.SHOOT_DAY else _("mark it as wrapped")
            ),
            Next.SEND_PROOFS: _("proofs to the client"),
            Next.AWAIT_SELECTION: self._by(
                _("their selection"), _("their selection, due %(by)s"), _("their selection, overdue since %(by)s")
            ),
            Next.FINISH_PICTURES: self._by(
                _("finish the pictures"),
                _("finish the pictures by %(by)s"),
                _("finish the pictures, promised for %(by)s"),
            ),
            Next.DELIVER: self._by(
                _("deliver them"), _("deliver them by %(by)s"), _("deliver them, promised for %(by)s")
            ),
            Next.WRITE_INVOICE: (_("invoice what is owed for it") if stage is Stage.CANCELLED else _("the invoice")),
            Next.ISSUE_INVOICE: _("issue the invoice"),
            Next.AWAIT_PAYMENT: _("payment, due %(by)s") if by else _("payment"),
            Next.CHASE_PAYMENT: (
                _("chase the payment")
                if stage is Stage.OVERDUE
                else _("chase invoice %(next_number)s, overdue since %(by)s")
            ),
            Next.CHECK_LICENCE: _("see what its licence still waits for"),
            Next.AWAIT_LICENCE_START: _("its licence begins %(by)s"),
            Next.AWAIT_LICENCE_END: _("it ends %(by)s") if stage is Stage.LICENSED else _("its licence ends %(by)s"),
            Next.RENEW_LICENCE: (
                _("ask whether they renew, or put the shoot away")
                if past
                else _("ask whether they renew, it ends %(by)s")
            ),
            Next.PUT_AWAY: _("put it away"),
            Next.TAKE_UP: _("ask, and take it up again"),
        }
        return words[step.code] % self.known if words[step.code] else ""

    def _by(self, without: str, ahead: str, past: str) -> str:
        by = self.standing.step.by
        return without if by is None else past if by < self.today else ahead
