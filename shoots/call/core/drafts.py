"""What reading notes gives: drafts, each with its span and its reason, and the questions still open."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from shoots.call.core.spans import Span


class DraftKind(StrEnum):
    """What a draft is about."""

    COUNT = "count"
    SHAPE = "shape"
    PLACEMENT = "placement"
    TERRITORY = "territory"
    DATE = "date"
    MONEY = "money"
    MOOD = "mood"
    PRODUCT = "product"
    PERSON = "person"
    PLACE = "place"
    LICENCE = "licence"
    EXCLUSIVITY = "exclusivity"
    NEGATIVE = "negative"
    WISH = "wish"
    PERMISSION = "permission"
    HAZARD = "hazard"
    COPY_SPACE = "copy_space"
    FRAMING = "framing"
    APPROVER = "approver"
    PAYER = "payer"
    REFERENCE = "reference"


class ReasonCode(StrEnum):
    """Why something was read as it was; the page says it in words."""

    NUMBER_AND_NOUN = "number_and_noun"
    LABEL_AND_NUMBER = "label_and_number"
    SUM_OF_PARTS = "sum_of_parts"
    TIMES_EACH = "times_each"
    HERO_WITH_CROPS = "hero_with_crops"
    CORRECTED = "corrected"
    RATIO = "ratio"
    TRADE_WORD = "trade_word"
    MISTYPED = "mistyped"
    COUNTRY_NAME = "country_name"
    REGION_GROUP = "region_group"
    EXCLUDED_AFTER_WORLD = "excluded_after_world"
    CURRENCY_MARK = "currency_mark"
    THOUSANDS_SHORT = "thousands_short"
    ALL_IN = "all_in"
    UNIT_TIMES_NUMBER = "unit_times_number"
    LAST_YEAR = "last_year"
    DAY_NAMED = "day_named"
    WEEKDAY_FROM_CALL = "weekday_from_call"
    WEEK_COMMENCING = "week_commencing"
    HOLIDAY = "holiday"
    PART_OF_MONTH = "part_of_month"
    RELATIVE_TO_CALL = "relative_to_call"
    PENCILLED = "pencilled"
    CLOCK_TIME = "clock_time"
    HALF_HOUR = "half_hour"
    LENGTH_OF_USE = "length_of_use"
    SEASONS = "seasons"
    FOR_EVER = "for_ever"
    AGE_UNDER_18 = "age_under_18"
    AGE = "age"
    SCHOOL_AGE = "school_age"
    PLACE_IMPLIES = "place_implies"
    ACT_IMPLIES = "act_implies"
    NAMED_AS_PRODUCT = "named_as_product"
    PRODUCT_WORD = "product_word"
    PERSON_WORD = "person_word"
    PLACE_WORD = "place_word"
    NOT_WANTED = "not_wanted"
    HEDGED = "hedged"
    ROOM_FOR_TEXT = "room_for_text"
    SIGNS_OFF = "signs_off"
    PAYS = "pays"


class CountOf(StrEnum):
    """What is counted. The first group adds up to finals."""

    FINALS = "finals"
    PICTURES = "pictures"
    HEROES = "heroes"
    DETAILS = "details"
    PACKSHOTS = "packshots"
    PORTRAITS = "portraits"
    LIFESTYLE = "lifestyle"
    OTHERS = "others"
    SHOTS = "shots"
    CROPS = "crops"
    LOCATIONS = "locations"
    OUTFITS = "outfits"
    PRODUCTS = "products"
    SETUPS = "setups"
    DAYS = "days"
    ANGLES = "angles"


class DateKind(StrEnum):
    """What happens on a date. The door for scripts prints the first three as `dates`."""

    SHOOT = "shoot"
    DELIVERY = "delivery"
    COVER = "cover"
    LAUNCH = "launch"
    QUOTE = "quote"
    SAMPLES = "samples"
    MEETING = "meeting"
    AWAY = "away"
    SCOUTING = "scouting"
    LICENCE = "licence_start"


class Tax(StrEnum):
    """Whether an amount of money contains the tax."""

    INCLUDED = "included"
    EXCLUDED = "excluded"
    UNKNOWN = "unknown"


class MoneyKind(StrEnum):
    """What an amount is for."""

    BUDGET = "budget"
    FEE = "fee"
    ALL_IN = "all_in"
    UNIT = "unit"
    DAY_RATE = "day_rate"
    EXPENSES = "expenses"
    USAGE = "usage"
    DEPOSIT = "deposit"
    LAST_YEAR = "last_year"
    RETAIL = "retail"


class Pole(StrEnum):
    """Where a mood stands between its two poles."""

    DARK = "dark"
    BRIGHT = "bright"
    BOTH = "both"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Reason:
    """Why: a code and the words of the notes that it rests on."""

    code: ReasonCode
    params: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class CountValue:
    """A number of something; a missing end means that none was said ("at least 8")."""

    of: CountOf
    minimum: int | None
    maximum: int | None
    approximate: bool = False
    per: str = ""


@dataclass(frozen=True, slots=True)
class ShapeValue:
    """A shape of pictures and how many of them."""

    shape: str
    count: int | None = None


@dataclass(frozen=True, slots=True)
class PlacementValue:
    """Where the pictures will be seen."""

    placement: str


@dataclass(frozen=True, slots=True)
class TerritoryValue:
    """Countries as ISO 3166 codes or "world"; excluded ones are not wanted."""

    codes: tuple[str, ...]
    group: str = ""
    excluded: bool = False


@dataclass(frozen=True, slots=True)
class DateValue:
    """A day, a stretch of days, an end, or several to choose from.

    `by` includes its day, `before` does not. `held` is a pencilled date: nothing is confirmed. `ambiguous` asks for
    confirmation; `readings` are the days that it might also mean.
    """

    kind: DateKind
    first: date | None = None
    last: date | None = None
    by: date | None = None
    before: date | None = None
    after: date | None = None
    any_of: tuple[date, ...] = ()
    hours_from: str = ""
    hours_to: str = ""
    at_clients: bool = False
    held: bool = False
    ambiguous: bool = False
    readings: tuple[date, ...] = ()


@dataclass(frozen=True, slots=True)
class MoneyValue:
    """An amount, or a stretch of amounts up to `upper`; a unit price has what it is `per` and how many."""

    amount: Decimal
    currency: str
    tax: Tax
    kind: MoneyKind
    upper: Decimal | None = None
    per: str = ""
    quantity: int | None = None
    assumed: bool = False


@dataclass(frozen=True, slots=True)
class MoodValue:
    """A word of feeling and the pole that it leans to."""

    pole: Pole
    words: str
    weak: bool = False


@dataclass(frozen=True, slots=True)
class ProductValue:
    """A thing to be shown, with its colours and sizes."""

    name: str
    colours: tuple[str, ...] = ()
    sizes: tuple[str, ...] = ()
    quantity: int | None = None


@dataclass(frozen=True, slots=True)
class PersonValue:
    """Somebody in the pictures (or, with `crew`, behind the camera)."""

    role: str
    count: int | None = None
    age: int | None = None
    minor: bool | None = None
    school_age: bool = False
    crew: bool = False
    ages: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class PlaceValue:
    """A place to shoot at; `ask` says whom to ask for leave when the notes don't ("owner", "landowner")."""

    name: str
    code: str
    whose: str = ""
    ask: str = ""


@dataclass(frozen=True, slots=True)
class LicenceValue:
    """For how long the pictures may be used, and from when."""

    months: Decimal | None = None
    perpetual: bool = False
    starts: str = ""
    starts_on: date | None = None
    assumed: bool = False


@dataclass(frozen=True, slots=True)
class ExclusivityValue:
    """Whether others are shut out, in what, and for how long."""

    exclusive: bool
    scope: str = ""
    months: Decimal | None = None


@dataclass(frozen=True, slots=True)
class TextValue:
    """Words of the notes themselves."""

    text: str


@dataclass(frozen=True, slots=True)
class ImpliedValue:
    """A permission to get or a hazard to plan for, and what brought it up."""

    code: str
    because: str


@dataclass(frozen=True, slots=True)
class CopySpaceValue:
    """Room to be left for words."""

    position: str
    purpose: str


Value = (
    CountValue
    | ShapeValue
    | PlacementValue
    | TerritoryValue
    | DateValue
    | MoneyValue
    | MoodValue
    | ProductValue
    | PersonValue
    | PlaceValue
    | LicenceValue
    | ExclusivityValue
    | TextValue
    | ImpliedValue
    | CopySpaceValue
)


@dataclass(frozen=True, slots=True)
class Draft:
    """Something that the notes ask for, until somebody accepts, edits or dismisses it."""

    kind: DraftKind
    value: Value
    span: Span
    line_no: int
    reason: Reason
    wish: bool = False
    confirm: bool = False
    #: Earlier words that this draft replaces ("4 locations?? no, 2").
    corrects: tuple[Span, ...] = ()
    #: The words that a sum or a product was worked out from.
    parts: tuple[Span, ...] = ()


class Question(StrEnum):
    """What is still to be asked, the most expensive first; the order here is the order on the page."""

    TERM = "term"
    TERRITORY = "territory"
    PLACEMENTS = "placements"
    EXCLUSIVITY_TERM = "exclusivity_term"
    BUDGET = "budget"
    TAX = "tax"
    AMOUNT_MEANT = "amount_meant"
    SHOOT_DATE = "shoot_date"
    CONFIRM_DATE = "confirm_date"
    DELIVERY_DATE = "delivery_date"
    FINALS = "finals"
    SHAPES = "shapes"
    APPROVER = "approver"
    PAYER = "payer"
    PEOPLE = "people"
    AGE = "age"
    GUARDIAN = "guardian"
    COUNCIL_LICENCE = "council_licence"
    PRODUCTS = "products"
    SAMPLES = "samples"
    PLACE = "place"
    PERMISSION = "permission"
    CALL_TIME = "call_time"
    LICENCE_START = "licence_start"
    SEASON_LENGTH = "season_length"
    SHAPE_COUNTS = "shape_counts"
    LAST_JOB = "last_job"
    MOOD = "mood"


@dataclass(frozen=True, slots=True)
class OpenQuestion:
    """A question and, where the notes gave rise to it, the words that did."""

    code: Question
    span: Span | None = None
    params: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Reading:
    """Everything read from notes, in the order of the notes."""

    drafts: tuple[Draft, ...]
    superseded: tuple[Draft, ...]
    questions: tuple[OpenQuestion, ...]
    #: The number of finished pictures, said or worked out; None when nothing was said.
    finals: Draft | None = None

    def of(self, kind: DraftKind) -> tuple[Draft, ...]:
        """Return the drafts of one kind, in order."""
        return tuple(draft for draft in self.drafts if draft.kind is kind)
