"""The page of what was promised: each promise with its shots and its sources, the table, the smallest set."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from shoots.brief.models import PLACEMENT_LABELS
from shoots.coverage.core.promised import Promised
from shoots.coverage.core.said import Origin, Said
from shoots.coverage.core.table import Cell, table, usual_sides
from shoots.coverage.models import DIMENSION_LABELS, KIND_LABELS
from shoots.coverage.queries.papers import Promises, kept_of, read_promises
from shoots.shoot.models import Shoot
from shoots.shotlist.core.coverage import Dimension, Missing, Promise, Row, State, Wants, missing_shots
from shoots.shotlist.core.sketch import Sketch
from shoots.shotlist.core.smallest import Smallest, smallest_set
from shoots.shotlist.queries import ShotCard, drawings_of

ORIGIN_LABELS = {
    Origin.CALL: gettext_lazy("Call"),
    Origin.BRIEF: gettext_lazy("Brief"),
    Origin.APPROVED: gettext_lazy("Approved brief"),
    Origin.QUOTE: gettext_lazy("Accepted quote"),
    Origin.LICENCE: gettext_lazy("Licence"),
    Origin.STUDIO: gettext_lazy("Your own word"),
}
NUMBERS = (
    gettext_lazy("no"),
    gettext_lazy("one"),
    gettext_lazy("two"),
    gettext_lazy("three"),
    gettext_lazy("four"),
    gettext_lazy("five"),
    gettext_lazy("six"),
    gettext_lazy("seven"),
    gettext_lazy("eight"),
    gettext_lazy("nine"),
    gettext_lazy("ten"),
    gettext_lazy("eleven"),
    gettext_lazy("twelve"),
)
#: Never more drafts of missing shots than this.
MOST_DRAFTS = 40


@dataclass(frozen=True)
class Source:
    """Where something was promised: which paper, its words, and the address of the place."""

    label: str
    words: str
    url: str


@dataclass(frozen=True)
class PromiseRow:
    """A promise as the page tells it. `own` is the key of the studio's own word about it, None without one."""

    key: str
    title: str
    asked: str
    tag: str
    look: str
    state: State
    is_wish: bool
    shots: tuple[ShotCard, ...]
    perhaps: tuple[ShotCard, ...]
    nearly: tuple[ShotCard, ...]
    sources: tuple[Source, ...]
    disagree: tuple[Source, ...]
    own: int | None
    anchor: str


@dataclass(frozen=True)
class TableCell:
    """A cell with its word; `look` is good, bad, wait or plain, `anchor` the promise that it opens."""

    word: str
    look: str
    says: str
    anchor: str


@dataclass(frozen=True)
class TableLine:
    name: str
    is_asked: bool
    cells: tuple[TableCell, ...]


@dataclass(frozen=True)
class TablePage:
    """The table with its names; `sides` are the dimensions to choose from."""

    down: str
    across: str
    down_words: str
    across_words: str
    columns: tuple[str, ...]
    lines: tuple[TableLine, ...]
    sides: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class SmallestPage:
    """The smallest set and what it leaves over, in a sentence and as shots."""

    sentence: str
    note: str
    found: Smallest
    shots: tuple[ShotCard, ...]
    extra: tuple[ShotCard, ...]
    extra_minutes: int


@dataclass(frozen=True)
class CoveragePage:
    """Everything on the page. `sentence` says how things stand; `drawings` has each drawing of its shots once."""

    sentence: str
    holes: tuple[PromiseRow, ...]
    served: tuple[PromiseRow, ...]
    wishes: tuple[PromiseRow, ...]
    left_out: tuple[tuple[PromiseRow, int], ...]
    table: TablePage
    smallest: SmallestPage | None
    unasked: tuple[ShotCard, ...]
    shots: int
    drawings: tuple[tuple[str, Sketch], ...]

    @property
    def promises(self) -> int:
        return len(self.holes) + len(self.served)

    @property
    def more(self) -> tuple[PromiseRow, ...]:
        return tuple(row for row in self.served if row.state is State.MORE)


def number_words(number: int) -> str:
    """Return a number as it stands in a sentence: up to twelve as a word."""
    return str(NUMBERS[number]) if number < len(NUMBERS) else str(number)


def coverage_page(shoot: Shoot, *, down: str = "", across: str = "") -> CoveragePage:
    """Return the page, with the table by two dimensions if they are known and differ; a fixed number of queries."""
    known = read_promises(shoot)
    rows = [_row(shoot, known, one, row) for one, row in zip(known.settled.promised, known.done.rows, strict=True)]
    holes = tuple(row for row in rows if row.state in (State.HOLE, State.PARTLY) and not row.is_wish)
    served = tuple(row for row in rows if row.state in (State.SERVED, State.MORE) and not row.is_wish)
    return CoveragePage(
        sentence=coverage_sentence(known),
        holes=holes,
        served=served,
        wishes=tuple(row for row in rows if row.is_wish),
        left_out=tuple(
            (_row(shoot, known, one, Row(one.promise, (), 0, (), ())), int(own.record))
            for one, own in known.settled.left_out
        ),
        table=_table(known, down, across),
        smallest=_smallest(known) if holes or served else None,
        unasked=_cards(known, known.done.unasked),
        shots=len(known.planned),
        drawings=drawings_of(known.cards.values()),
    )


def coverage_sentence(known: Promises) -> str:
    """Return how things stand in one sentence. No query."""
    promises = sum(not row.promise.is_wish for row in known.done.rows)
    return _sentence(len(known.done.holes), promises, len(known.planned))


def _cards(known: Promises, keys: Iterable[int]) -> tuple[ShotCard, ...]:
    return tuple(known.cards[key] for key in keys)


def _sentence(holes: int, promises: int, shots: int) -> str:
    if not promises:
        return _("Nothing that was promised has been written down yet.")
    if not shots:
        return ngettext(
            "%(n)s thing was promised, and there is no shot yet.",
            "%(n)s things were promised, and there is no shot yet.",
            promises,
        ) % {"n": number_words(promises).capitalize()}
    if not holes:
        return _("Everything that was promised has its shots.")
    words = ngettext(
        "%(n)s of %(all)s promises is not kept by the shots yet.",
        "%(n)s of %(all)s promises are not kept by the shots yet.",
        holes,
    )
    return words % {"n": number_words(holes).capitalize(), "all": number_words(promises)}


def value_words(dimension: Dimension, value: str, known: Promises) -> str:
    """Return a value as pages name it. No query."""
    if dimension is Dimension.MOOD:
        return known.moods[value].name if value in known.moods else _("a mood that is gone")
    if dimension is Dimension.PLACEMENT:
        return str({str(code): label for code, label in PLACEMENT_LABELS.items()}.get(value, value))
    if dimension is Dimension.KIND:
        return str({str(code): label for code, label in KIND_LABELS.items()}.get(value, value))
    return value


def wants_words(wants: Wants, known: Promises) -> str:
    """Return what was named together in one line. No query."""
    return " · ".join(value_words(dimension, value, known) for dimension, value in wants) or _("Finished pictures")


def _asked(least: int, most: int | None, crops: int) -> str:
    if most is None:
        count = ngettext("%(n)d picture at least", "%(n)d pictures at least", least) % {"n": least}
    elif most == least:
        count = ngettext("%(n)d picture", "%(n)d pictures", least) % {"n": least}
    else:
        count = _("%(least)d to %(most)d pictures") % {"least": least, "most": most}
    if crops:
        count += " · " + ngettext("%(n)d further shape of it", "%(n)d further shapes of it", crops) % {"n": crops}
    return count


def count_words(promise: Promise) -> str:
    """Return how many pictures a promise asks for. No query."""
    return _asked(promise.least, promise.most, promise.crops)


def _tag(row: Row) -> tuple[str, str]:
    """Return the word of a promise's state, and how it looks."""
    have = {"n": row.pictures, "of": row.promise.least}
    if row.promise.is_wish and row.lacking:
        return (_("%(n)d of %(of)d") % have if row.pictures else _("no shot"), "plain")
    match row.state:
        case State.HOLE:
            return _("hole"), "bad"
        case State.PARTLY:
            return _("%(n)d of %(of)d") % have, "wait"
        case State.MORE:
            return _("%(n)d too many") % {"n": row.over}, "wait"
        case _:
            return _("served"), "good"


def _row(shoot: Shoot, known: Promises, one: Promised, row: Row) -> PromiseRow:
    tag, look = _tag(row)
    own = known.settled.stated.get(one.promise.key)
    return PromiseRow(
        key=one.promise.key,
        title=wants_words(one.promise.wants, known),
        asked=" · ".join(
            [
                *(
                    str(DIMENSION_LABELS[dimension])
                    for dimension, _value in one.promise.wants[:1]
                    if not one.promise.wants[1:]
                ),
                count_words(one.promise),
            ]
        ),
        tag=tag,
        look=look,
        state=row.state,
        is_wish=one.promise.is_wish,
        shots=_cards(known, row.shots),
        # Where nobody can tell, everybody might: then the list says nothing.
        perhaps=_cards(known, row.perhaps) if row.lacking else (),
        nearly=_cards(known, row.nearly) if row.lacking else (),
        sources=tuple(dict.fromkeys(_source(shoot, known, said) for said in one.said)),
        disagree=tuple(dict.fromkeys(_source(shoot, known, said, counted=True) for said in one.disagree)),
        own=int(own.record) if own else None,
        anchor=f"promise-{known.done.rows.index(row)}" if row in known.done.rows else "",
    )


def _source(shoot: Shoot, known: Promises, said: Said, *, counted: bool = False) -> Source:
    words = said.words
    if said.origin in (Origin.BRIEF, Origin.APPROVED, Origin.LICENCE):
        words = wants_words(said.wants, known) if said.wants else said.words
    if counted or (not said.wants and said.words.isdecimal()):
        words = _asked(said.least, said.most, 0)
    match said.origin:
        case Origin.CALL:
            url = f"{reverse('call_detail', args=[known.calls[said.record]])}#draft-{said.record}"
        case Origin.BRIEF:
            url = reverse("brief_detail", args=[shoot.code])
        case Origin.APPROVED:
            url = reverse("brief_version", args=[shoot.code, said.record])
        case Origin.QUOTE:
            url = reverse("quote_detail", args=[shoot.code, said.record])
        case Origin.LICENCE:
            url = reverse("licence_list", args=[shoot.code])
        case _:
            url = ""
    return Source(str(ORIGIN_LABELS[said.origin]), words, url)


def _table(known: Promises, down: str, across: str) -> TablePage:
    usual = usual_sides([one.promise for one in known.settled.promised])
    chosen = (Dimension(down), Dimension(across)) if {down, across} <= set(Dimension) and down != across else usual
    made = table(known.done, known.planned, *chosen)
    anchors = {row.promise.key: f"promise-{n}" for n, row in enumerate(known.done.rows)}

    def name(side: Dimension, value: str) -> str:
        return value_words(side, value, known) if value else _("whatever")

    columns = tuple(name(made.across, value) for value in made.columns)
    return TablePage(
        down=str(made.down),
        across=str(made.across),
        down_words=str(DIMENSION_LABELS[made.down]),
        across_words=str(DIMENSION_LABELS[made.across]),
        columns=columns,
        lines=tuple(
            TableLine(
                name(made.down, line.value),
                line.is_asked,
                tuple(
                    _table_cell(cell, anchors, f"{name(made.down, line.value)}, {column}")
                    for cell, column in zip(line.cells, columns, strict=True)
                ),
            )
            for line in made.lines
        ),
        sides=tuple((str(side), str(label)) for side, label in DIMENSION_LABELS.items()),
    )


def _table_cell(cell: Cell, anchors: dict[str, str], where: str) -> TableCell:
    worst = next((row for row in cell.rows if row.state is cell.state and not row.promise.is_wish), None)
    anchor = anchors[worst.promise.key] if worst else anchors[cell.rows[0].promise.key] if cell.rows else ""
    shots = ngettext("%(n)d shot", "%(n)d shots", len(cell.shots)) % {"n": len(cell.shots)}
    match cell.state:
        case State.HOLE if not cell.pictures:
            word, look = _("hole"), "bad"
        case State.HOLE | State.PARTLY:
            word, look = _("%(n)d of %(of)d") % {"n": cell.pictures, "of": cell.wanted}, "wait"
        case State.MORE:
            word, look = _("%(n)d too many") % {"n": cell.over}, "wait"
        case State.SERVED:
            word, look = shots, "good"
        case _ if cell.rows:
            word, look = (shots if cell.shots else _("wish")), "plain"
        case _:
            word, look = (shots if cell.shots else ""), "plain"
    return TableCell(word, look, f"{where}: {word}", anchor)


def _smallest(known: Promises) -> SmallestPage | None:
    if not known.planned:
        return None
    found = smallest_set([one.promise for one in known.settled.promised], known.planned, kept=kept_of(known.planned))
    shots, extra = _cards(known, found.shots), _cards(known, found.extra)
    return SmallestPage(
        sentence=_smallest_sentence(found),
        note=""
        if found.is_proven
        else _("Time ran out before it was proven that there is no smaller set; none has fewer than %(n)d shots.")
        % {"n": found.at_least},
        found=found,
        shots=shots,
        extra=extra,
        extra_minutes=sum(card.shot.minutes for card in extra),
    )


def _smallest_sentence(found: Smallest) -> str:
    count, over = len(found.shots), len(found.extra)
    known = {"n": number_words(count).capitalize(), "extra": number_words(over)}
    if not count:
        return _("None of the shots serves a promise yet.")
    if found.unmet:
        first = ngettext(
            "This %(n)s covers what can be covered of it", "These %(n)s cover what can be covered of it", count
        )
    else:
        first = ngettext("This %(n)s covers what you promised", "These %(n)s cover what you promised", count)
    first %= {"n": known["n"].lower()}
    if not over:
        return _("%(cover)s; none is extra.") % {"cover": first}
    rest = ngettext("this %(extra)s is extra", "these %(extra)s are extra", over) % known
    return _("%(cover)s, %(rest)s.") % {"cover": first, "rest": rest}


@dataclass(frozen=True)
class MissingShot:
    """A draft of a missing shot: a name for it, what it has to have, and why it is drafted. `mark` tells it apart."""

    mark: str
    title: str
    has: tuple[tuple[str, str], ...]
    why: tuple[str, ...]
    crops: int
    wanted: Missing


@dataclass(frozen=True)
class MissingPage:
    """The drafts of missing shots, how many promises they would keep, and how many promises there are."""

    drafts: tuple[MissingShot, ...]
    holes: int
    promises: int


def missing_page(shoot: Shoot) -> MissingPage:
    """Return drafts of the shots that are missing; as many queries as the coverage."""
    known = read_promises(shoot)
    rows = {row.promise.key: row for row in known.done.rows}
    drafts = []
    for number, wanted in enumerate(missing_shots(known.done, most=MOST_DRAFTS)):
        parts = [
            (str(DIMENSION_LABELS[dimension]), ", ".join(value_words(dimension, value, known) for value in values))
            for dimension, values in wanted.wants.items()
        ]
        why = tuple(
            _("%(what)s: %(asked)s")
            % {
                "what": wants_words(rows[key].promise.wants, known),
                "asked": count_words(rows[key].promise),
            }
            for key in wanted.promises
        )
        mark = hashlib.sha256(f"{number}|{'|'.join(wanted.promises)}".encode()).hexdigest()[:16]
        title = _title(wanted, known)
        drafts.append(MissingShot(mark, title, tuple(parts), why, wanted.crops, wanted))
    return MissingPage(tuple(drafts), len(known.done.holes), len(known.done.rows))


def _title(wanted: Missing, known: Promises) -> str:
    """Return a working title: what is in it, else what it is for."""
    named = [
        value_words(dimension, wanted.wants[dimension][0], known)
        for dimension in (Dimension.KIND, Dimension.PRODUCT, Dimension.PERSON, Dimension.OUTFIT)
        if wanted.wants.get(dimension)
    ]
    if mood := wanted.wants.get(Dimension.MOOD):
        named.append(value_words(Dimension.MOOD, mood[0], known))
    if not named:
        named = [
            _("Picture for %(where)s") % {"where": value_words(Dimension.PLACEMENT, placement, known)}
            for placement in wanted.wants.get(Dimension.PLACEMENT, ())[:1]
        ]
    if not named:
        named = [_("Picture in %(shape)s") % {"shape": shape} for shape in wanted.wants.get(Dimension.SHAPE, ())[:1]]
    return (", ".join(named) or _("One more picture"))[:160]
