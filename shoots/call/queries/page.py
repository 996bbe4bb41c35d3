"""The page of one call, the list of calls without a shoot, and the calls of a shoot."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date

from django.db.models import Count, Q

from shoots.brief.models import Brief, Mood
from shoots.call.core import landing
from shoots.call.core.drafts import DraftKind, Question
from shoots.call.models import MOST_DRAFTS, Call, Draft, DraftState
from shoots.call.queries import words
from shoots.members.models import Studio
from shoots.people.models import Client
from shoots.shoot.models import Booking, BookingKind, Shoot, ShootDay

#: Characters of a long line that are shown on each side of what was read.
AROUND = 70
#: Questions that are shown at once; the rest opens on a tap.
FIRST_QUESTIONS = 5
#: Longest title that is taken from the notes.
LONGEST_TITLE = 60


@dataclass(frozen=True)
class Piece:
    """A stretch of a line, marked when something was read from it."""

    text: str
    is_read: bool


@dataclass(frozen=True)
class DraftCard:
    """One draft in words, and where it goes when it is accepted."""

    draft: Draft
    kind: str
    says: str
    reason: str
    place: str
    plans_shots: bool

    @property
    def goes_to_brief(self) -> bool:
        return self.place == "brief"

    @property
    def goes_to_shots(self) -> bool:
        return self.place == "shots"

    @property
    def goes_to_dates(self) -> bool:
        return self.place == "dates"

    @property
    def stays_with_call(self) -> bool:
        return self.place == "call"


@dataclass(frozen=True)
class Line:
    """A line of the notes with its drafts beside it."""

    number: int
    pieces: tuple[Piece, ...]
    cards: tuple[DraftCard, ...]


@dataclass(frozen=True)
class Asked:
    """A question still to ask, and the words of the notes that gave rise to it."""

    words: str
    said: str


@dataclass(frozen=True)
class CallPage:
    """One call: its lines with drafts, and what is still to be asked, the most expensive first."""

    call: Call
    lines: tuple[Line, ...]
    leftovers: tuple[DraftCard, ...]
    first_questions: tuple[Asked, ...]
    more_questions: tuple[Asked, ...]
    open_drafts: int
    plain_drafts: int
    accepted: int
    is_cut: bool

    @property
    def questions(self) -> int:
        return len(self.first_questions) + len(self.more_questions)

    @property
    def next_card(self) -> DraftCard | None:
        """The first draft that is still open: the one that a thumb accepts."""
        return next((card for line in self.lines for card in line.cards if card.draft.is_open), None)


def call_page(call: Call) -> CallPage:
    """Return the page of a call; at most six queries, however long the notes are."""
    drafts = list(Draft.objects.filter(call=call))
    texts = call.notes.split("\n")
    starts = [0]
    for text in texts:
        starts.append(starts[-1] + len(text) + 1)
    by_line: dict[int, list[Draft]] = {}
    for draft in drafts:
        if not draft.is_gone:
            by_line.setdefault(draft.line_no, []).append(draft)
    lines = tuple(
        Line(number, tuple(_pieces(texts[number - 1], _spans(own, starts[number - 1]))), tuple(map(card_of, own)))
        for number, own in sorted(by_line.items())
        if 0 < number <= len(texts)
    )
    questions = tuple(_still_open(call))
    still = [draft for draft in drafts if draft.is_open]
    return CallPage(
        call=call,
        lines=lines,
        leftovers=tuple(card_of(draft) for draft in drafts if draft.is_gone),
        first_questions=questions[:FIRST_QUESTIONS],
        more_questions=questions[FIRST_QUESTIONS:],
        open_drafts=len(still),
        plain_drafts=sum(not draft.needs_check for draft in still),
        accepted=sum(draft.is_accepted for draft in drafts),
        is_cut=len(call.read_notes) < len(call.notes) or sum(not d.is_gone for d in drafts) >= MOST_DRAFTS,
    )


def _spans(drafts: list[Draft], offset: int) -> list[tuple[int, int]]:
    return [(draft.start - offset, draft.end - offset) for draft in drafts]


def _pieces(text: str, spans: list[tuple[int, int]]) -> Iterable[Piece]:
    """Cut a line at what was read in it; of a very long one only the neighbourhood stays."""
    marks: list[list[int]] = []
    for start, end in sorted(spans):
        start, end = max(0, start), min(len(text), end)
        if marks and start <= marks[-1][1]:
            marks[-1][1] = max(marks[-1][1], end)
        elif start < end:
            marks.append([start, end])
    here = 0
    for start, end in marks:
        yield from _between(text[here:start], is_first=here == 0, is_last=False)
        yield Piece(text[start:end], True)
        here = end
    yield from _between(text[here:], is_first=here == 0, is_last=True)


def _between(text: str, *, is_first: bool, is_last: bool) -> Iterable[Piece]:
    if not text:
        return
    if len(text) > 2 * AROUND + 20:
        head = "" if is_first else text[:AROUND]
        tail = "" if is_last else text[-AROUND:]
        text = f"{head} … {tail}"
    yield Piece(text, False)


def card_of(draft: Draft) -> DraftCard:
    """Return a draft in words. No query."""
    value = draft.meant
    said = words.value_words(value)
    kind = DraftKind(draft.kind)
    return DraftCard(
        draft=draft,
        kind=words.kind_words(kind),
        says=said,
        reason=words.reason_words(draft.reason, draft.reason_params),
        place=place_of(landing.steps(kind, value, line=said)),
        plans_shots=kind is DraftKind.PRODUCT,
    )


def place_of(steps: tuple[landing.Step, ...]) -> str:
    """Return the page on which an accepted draft is found again: brief, shots, dates, or the call itself."""
    for step in steps:
        if isinstance(step, landing.PlanShots):
            return "shots"
        if isinstance(step, landing.PencilDays | landing.SetHours | landing.DeliverBy):
            return "dates"
    return "brief" if steps else "call"


def _still_open(call: Call) -> Iterable[Asked]:
    """The questions of the last reading without those that the shoot answers by now; five queries."""
    known = _Known(call.shoot) if call.shoot else None
    for kept in call.questions:
        if known and kept["code"] in set(Question) and known.answers(Question(kept["code"])):
            continue
        said = words.question_words(kept["code"], kept["params"])
        if said:
            yield Asked(said, kept["words"])


class _Known:
    """What a shoot knows already, whoever wrote it there."""

    def __init__(self, shoot: Shoot) -> None:
        self.shoot = shoot
        self.brief = Brief.objects.filter(shoot=shoot).first() or Brief()
        self.days = list(ShootDay.objects.standing().filter(shoot=shoot))
        self.kinds = set(Booking.objects.standing().filter(shoot=shoot).values_list("kind", flat=True))
        self.has_mood = Mood.objects.filter(shoot=shoot).exists()

    def answers(self, question: Question) -> bool:
        answer = ANSWERS.get(question)
        return bool(answer and answer(self))


ANSWERS: dict[Question, Callable[[_Known], object]] = {
    Question.TERM: lambda known: known.brief.usage_months or known.brief.usage_for_good,
    Question.TERRITORY: lambda known: known.brief.territories,
    Question.PLACEMENTS: lambda known: known.brief.placements,
    Question.BUDGET: lambda known: known.brief.budget,
    Question.SHOOT_DATE: lambda known: known.days,
    Question.CONFIRM_DATE: lambda known: any(day.is_confirmed for day in known.days),
    Question.DELIVERY_DATE: lambda known: known.shoot.delivery_due_date,
    Question.FINALS: lambda known: known.brief.finals_wanted,
    Question.SHAPES: lambda known: known.brief.shapes,
    Question.APPROVER: lambda known: known.brief.approvers or (known.shoot.contact and known.shoot.contact.approves),
    Question.PAYER: lambda known: known.shoot.billed_to_id or (known.shoot.contact and known.shoot.contact.pays),
    Question.PEOPLE: lambda known: BookingKind.TALENT in known.kinds,
    Question.PRODUCTS: lambda known: known.brief.products,
    Question.PLACE: lambda known: BookingKind.PLACE in known.kinds or any(day.place_id for day in known.days),
    Question.CALL_TIME: lambda known: any(day.call_time and day.is_confirmed for day in known.days),
    Question.MOOD: lambda known: known.has_mood,
}


@dataclass(frozen=True)
class CallRow:
    """A call in a list."""

    call: Call
    first_line: str
    open_drafts: int


def calls_at_hand(studio: Studio) -> tuple[CallRow, ...]:
    """Return the calls that are no shoot yet, the newest first; one query."""
    return _rows(Call.objects.of_studio(studio).filter(shoot=None))


def calls_of(shoot: Shoot) -> tuple[CallRow, ...]:
    """Return a shoot's calls, the newest first; one query."""
    return _rows(Call.objects.filter(shoot=shoot))


def _rows(calls: Iterable[Call]) -> tuple[CallRow, ...]:
    counted = calls.annotate(left=Count("drafts", filter=Q(drafts__state=DraftState.OPEN)))  # type: ignore[attr-defined]
    newest = counted.order_by("-called_at", "-pk")
    return tuple(CallRow(call, first_line(call.notes), call.left) for call in newest[:200])


def first_line(notes: str) -> str:
    """Return the first line that says something, shortened."""
    text = next((line.strip() for line in notes.splitlines() if line.strip()), "")
    return text if len(text) <= LONGEST_TITLE * 2 else text[: LONGEST_TITLE * 2].rsplit(" ", 1)[0] + " …"


@dataclass(frozen=True)
class Beginning:
    """What a new shoot could begin with, guessed from a call: the page shows it, nothing is made."""

    client_name: str
    contact_name: str
    title: str


def beginning_of(call: Call, *, today: date) -> Beginning:
    """Return a client, a contact and a title to begin with. Two queries.

    The caller's name is the client's when the studio knows such a client, or when it stands behind a comma, a dash
    or "from".
    """
    person, business = _caller_parts(call.caller)
    client = next(
        (
            known
            for known in Client.objects.of_studio(call.studio).filter(put_away_at=None)
            if known.name.casefold() in (call.caller.casefold(), business.casefold(), person.casefold())
        ),
        None,
    )
    if client and client.name.casefold() == person.casefold():
        person, business = "", client.name
    products = Draft.objects.filter(call=call, kind=DraftKind.PRODUCT, is_gone=False)
    named = (words.value_words(draft.meant) for draft in products.exclude(state=DraftState.DISMISSED))
    # "Mara from Fellside Packs" names the client, not what is to be photographed.
    product = next((name for name in named if name.casefold() not in call.caller.casefold()), "")
    title = product or first_line(call.notes) or f"{call.caller} {today:%B %Y}".strip()
    return Beginning(client.name if client else business, person, title[:LONGEST_TITLE])


def _caller_parts(caller: str) -> tuple[str, str]:
    for mark in (" from ", " of ", " at ", ", ", " – ", " - "):
        person, found, business = caller.partition(mark)
        if found:
            return person.strip(), business.strip()
    return caller.strip(), ""
