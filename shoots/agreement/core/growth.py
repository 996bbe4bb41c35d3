"""What a longer shot list costs: time on the day, and money where a price is known. What has no price is named.

References
----------
Own arrangement. Minutes of a change are the day plan's (`schedule.core.draft`): common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from enum import StrEnum

from shoots.agreement.core.agreed import Agreed, AgreedShot
from shoots.schedule.core.draft import BUILD_MINUTES, MOVE_MINUTES, OUTFIT_MINUTES
from shoots.values.money import round_half_up


@dataclass(frozen=True, slots=True)
class Load:
    """What a shot list asks of the day.

    Attributes
    ----------
    shots, finals : int
        Planned and finished pictures. [1]
    minutes : int
        What the shots take. [min]
    builds : int
        Setups to build, each once a day. [1]
    moves : int
        Changes of place within a day. [1]
    outfits : int
        Changes of outfit within a day. [1]
    without_setup : int
        Shots that no setup was planned for. [1]
    """

    shots: int = 0
    finals: int = 0
    minutes: int = 0
    builds: int = 0
    moves: int = 0
    outfits: int = 0
    without_setup: int = 0

    @property
    def change_minutes(self) -> int:
        """What building, moving and changing take together. [min]"""
        return self.builds * BUILD_MINUTES + self.moves * MOVE_MINUTES + self.outfits * OUTFIT_MINUTES

    @property
    def all_minutes(self) -> int:
        """Shots and changes together. [min]"""
        return self.minutes + self.change_minutes

    def __sub__(self, other: Load) -> Load:
        """Return how much more this is than another, number by number."""
        return Load(*(getattr(self, name) - getattr(other, name) for name in Load.__dataclass_fields__))


def load_of(shots: Iterable[AgreedShot]) -> Load:
    """Return what a shot list asks of the day.

    Parameters
    ----------
    shots : Iterable[AgreedShot]
        The list; shots without a day count as one day.

    Returns
    -------
    Load
        Sums, and changes as the day plan would group them: each setup is built once a day, one place and one outfit
        are there from the start.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> rim = AgreedShot(1, 1, "Rim", setup="a", minutes=30, outfits=("grey",))
    >>> slab = AgreedShot(2, 2, "Slab", setup="b", minutes=20, outfits=("red",), finals=2)
    >>> load = load_of([rim, slab])
    >>> load.minutes, load.builds, load.outfits, load.finals
    (50, 2, 1, 3)
    """
    listed = list(shots)
    days = {shot.day for shot in listed}

    def changes(kinds_of: Callable[[AgreedShot], Iterable[str]]) -> int:
        """Kinds beyond the first of each day."""
        kinds = ({kind for shot in listed if shot.day == day for kind in kinds_of(shot) if kind} for day in days)
        return sum(max(0, len(each) - 1) for each in kinds)

    return Load(
        shots=len(listed),
        finals=sum(shot.finals for shot in listed),
        minutes=sum(shot.minutes for shot in listed),
        builds=len({(shot.day, shot.setup) for shot in listed if shot.setup}),
        moves=changes(lambda shot: [shot.place]),
        outfits=changes(lambda shot: shot.outfits),
        without_setup=sum(not shot.setup for shot in listed),
    )


class Basis(StrEnum):
    """Where the prices come from."""

    ACCEPTED = "ACCEPTED"
    QUOTED = "QUOTED"
    CARD = "CARD"


@dataclass(frozen=True, slots=True)
class WorkPrice:
    """The price of something done beyond the usual finishing, and how many pictures the quote has it for.

    Attributes
    ----------
    price : Decimal
        For one picture. [currency units]
    quoted : Decimal
        0 on the card. [1]
    """

    price: Decimal
    quoted: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True)
class Prices:
    """What one more of something costs, net, as far as it is known.

    Attributes
    ----------
    basis : Basis
        The accepted quote, another quote, or the rate card.
    label : str
        The quote's number, empty for the card.
    currency : str
        ISO 4217.
    decimals : int
        Decimals of the currency on a document. [1]
    finishing : Decimal or None
        Finishing of one picture. [currency units]
    finishing_quoted : Decimal or None
        How many pictures the quote finishes; None on the card. [1]
    licence : Decimal or None
        The whole licence fee of the quote. [currency units]
    licensed : int or None
        How many pictures the usage names; None where it doesn't count them. [1]
    overtime : Decimal or None
        An hour after the day. [currency units]
    works : Mapping[str, WorkPrice]
        Finishing beyond the usual, by its words in lower case.
    """

    basis: Basis
    label: str
    currency: str
    decimals: int = 2
    finishing: Decimal | None = None
    finishing_quoted: Decimal | None = None
    licence: Decimal | None = None
    licensed: int | None = None
    overtime: Decimal | None = None
    works: Mapping[str, WorkPrice] = field(default_factory=dict)


class CostCode(StrEnum):
    """What a priced line is for."""

    FINISHING = "FINISHING"
    WORK = "WORK"
    LICENCE_SHARE = "LICENCE_SHARE"
    OVERTIME = "OVERTIME"


class Unpriced(StrEnum):
    """What would cost something and is not in the sum, or why."""

    FINISHING_RATE = "FINISHING_RATE"
    WORK = "WORK"
    LICENCE_UNCOUNTED = "LICENCE_UNCOUNTED"
    LICENCE_FEE = "LICENCE_FEE"
    USAGE = "USAGE"
    TIME = "TIME"
    NO_SETUP = "NO_SETUP"
    SETUPS = "SETUPS"
    FEWER = "FEWER"


@dataclass(frozen=True, slots=True)
class CostLine:
    """Quantity times price. [currency units]

    `covered` is how many the quote or the usage has already; None where nothing was counted. [1]
    `label` is the work's own words; empty for what needs none.
    """

    code: CostCode
    quantity: Decimal
    unit_price: Decimal
    net: Decimal
    covered: Decimal | None = None
    label: str = ""


@dataclass(frozen=True, slots=True)
class Growth:
    """What changed between two shot lists, in time and money.

    Attributes
    ----------
    more : Load
        The later load less the earlier; minus where it is less.
    lines : tuple[CostLine, ...]
        What is priced; empty when nothing is.
    total : Decimal
        Their sum, before tax and discount. [currency units]
    if_over : CostLine or None
        The time at the rate for hours after the day, should the day not hold it; not in the sum.
    unpriced : tuple[Unpriced, ...]
        What is not in the sum.
    """

    more: Load
    lines: tuple[CostLine, ...]
    total: Decimal
    if_over: CostLine | None
    unpriced: tuple[Unpriced, ...]

    @property
    def costs_nothing(self) -> bool:
        """Whether neither time nor money nor anything unpriced hangs on it."""
        return self.more == Load() and not self.lines and not self.unpriced


def growth(before: Agreed, after: Agreed, prices: Prices | None) -> Growth:
    """Return what the way from one version to another costs.

    Parameters
    ----------
    before, after : Agreed
        The earlier and the later version.
    prices : Prices or None
        What is known; None where neither a quote nor a card is.

    Returns
    -------
    Growth
        Only what the shot list and the usage ask for; never a price for what nobody priced.

    Notes
    -----
    Pictures cost finishing only above those that the quote finishes, and a licence only above those that the usage
    counts. The licence's price for one more is the fee shared evenly over the pictures that it counts: an
    indication, not an offer. A list that becomes shorter takes nothing off: a quote stands as it was accepted.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> one = Agreed(shots=(AgreedShot(1, 1, "Rim", minutes=30, finals=2, setup="a"),))
    >>> two = Agreed(shots=(*one.shots, AgreedShot(2, 2, "Slab", minutes=20, finals=1, setup="a")))
    >>> known = Prices(Basis.ACCEPTED, "Q-1", "GBP", finishing=Decimal(45), finishing_quoted=Decimal(2))
    >>> found = growth(one, two, known)
    >>> found.more.minutes, found.total
    (20, Decimal('45.00'))
    """
    was, now = load_of(before.shots), load_of(after.shots)
    more = now - was
    works = _works(before, after, prices)
    lines = [line for line in (_finishing(was, now, prices), *works, _licence(was, now, prices)) if line]
    return Growth(
        more=more,
        lines=tuple(lines),
        total=sum((line.net for line in lines), Decimal(0)),
        if_over=_if_over(more, prices),
        unpriced=tuple(_unpriced(before, after, more, prices)),
    )


def _above(was: int, now: int, covered: Decimal | int | None) -> Decimal:
    """How many come on top of what was there and of what is covered already."""
    return max(Decimal(0), now - max(Decimal(was), Decimal(covered or 0)))


def _line(code: CostCode, many: Decimal, price: Decimal, decimals: int, covered: Decimal | None = None) -> CostLine:
    return CostLine(code, many, price, round_half_up(many * price, decimals), covered)


def _finishing(was: Load, now: Load, prices: Prices | None) -> CostLine | None:
    if prices is None or prices.finishing is None:
        return None
    many = _above(was.finals, now.finals, prices.finishing_quoted)
    if not many:
        return None
    return _line(CostCode.FINISHING, many, prices.finishing, prices.decimals, prices.finishing_quoted)


def _licence(was: Load, now: Load, prices: Prices | None) -> CostLine | None:
    if prices is None or not prices.licensed or not prices.licence:
        return None
    many = _above(was.finals, now.finals, prices.licensed)
    if not many:
        return None
    share = round_half_up(prices.licence / prices.licensed, prices.decimals)
    return _line(CostCode.LICENCE_SHARE, many, share, prices.decimals, Decimal(prices.licensed))


def _worked(agreed: Agreed) -> dict[str, tuple[str, int, str]]:
    """Works by their words in lower case: as put, on how many pictures, and the first price of a shot's own."""
    found: dict[str, tuple[str, int, str]] = {}
    for work in (work for shot in agreed.shots for work in shot.finishing):
        what, many, price = found.get(work.what.casefold(), (work.what, 0, ""))
        found[work.what.casefold()] = (what, many + work.pictures, price or work.price)
    return found


def _works(before: Agreed, after: Agreed, prices: Prices | None) -> Iterator[CostLine]:
    """Works on more pictures than before, where the shot itself, the quote or the card has a price for them."""
    was = _worked(before)
    for key, (what, pictures, own_price) in _worked(after).items():
        known = prices.works.get(key) if prices else None
        price = Decimal(own_price) if own_price else known.price if known else None
        many = _above(was.get(key, ("", 0, ""))[1], pictures, known.quoted if known else 0)
        if many and price is not None:
            line = _line(CostCode.WORK, many, price, prices.decimals if prices else 2)
            yield replace(line, label=what, covered=known.quoted if known and known.quoted else None)


def _if_over(more: Load, prices: Prices | None) -> CostLine | None:
    if prices is None or prices.overtime is None or more.all_minutes <= 0:
        return None
    hours = round_half_up(Decimal(more.all_minutes) / 60, 2)
    return _line(CostCode.OVERTIME, hours, prices.overtime, prices.decimals)


def _unpriced(before: Agreed, after: Agreed, more: Load, prices: Prices | None) -> Iterator[Unpriced]:
    if more.finals > 0:
        yield from _unpriced_pictures(prices)
    if _has_unpriced_work(before, after, prices):
        yield Unpriced.WORK
    if _usage(before) != _usage(after):
        yield Unpriced.USAGE
    if more.all_minutes > 0 and (prices is None or prices.overtime is None):
        yield Unpriced.TIME
    if more.without_setup > 0:
        yield Unpriced.NO_SETUP
    if more.builds > 0:
        yield Unpriced.SETUPS
    if more.finals < 0:
        yield Unpriced.FEWER


def _has_unpriced_work(before: Agreed, after: Agreed, prices: Prices | None) -> bool:
    was = _worked(before)
    return any(
        pictures > was.get(key, ("", 0, ""))[1] and not own_price and (prices is None or key not in prices.works)
        for key, (_what, pictures, own_price) in _worked(after).items()
    )


def _unpriced_pictures(prices: Prices | None) -> Iterator[Unpriced]:
    if prices is None or prices.finishing is None:
        yield Unpriced.FINISHING_RATE
    if prices is None or not prices.licence:
        yield Unpriced.LICENCE_FEE
    elif not prices.licensed:
        yield Unpriced.LICENCE_UNCOUNTED


def _usage(agreed: Agreed) -> tuple[object, ...]:
    """What a licence is priced by."""
    return (
        frozenset(agreed.placements),
        frozenset(agreed.territories),
        agreed.usage_months,
        agreed.usage_for_good,
    )
