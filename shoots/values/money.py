"""Money: exact decimals with a currency, rounded half away from zero, printed by locale.

Amounts stay exact until something asks for rounding, because unit prices may carry more decimals than
the currency has coins (EN 16931-1, BT-146). Rounding is half-up as commerce does it; a negative amount
mirrors the positive one, so that a correction cancels its original to the penny.

References
----------
.. [1] ISO 4217:2015, list one: alphabetic codes and minor units. The table below was compared with the
   data of the package iso4217 1.16.20260101. CLDR's own digits (which Babel prints by default) differ
   for currencies whose coins are out of use, so they are not used for arithmetic.
.. [2] Unicode CLDR through Babel 2.18: symbols, separators and patterns of the locales.
.. [3] EN 16931-1:2017, BR-DEC rules and the rounding of amounts.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import MAX_EMAX, MIN_EMIN, ROUND_HALF_UP, Context, Decimal, InvalidOperation
from enum import StrEnum
from functools import cache

import pycountry
from babel import Locale
from babel.numbers import NumberFormatError, get_currency_symbol, parse_decimal, parse_pattern

_MINOR_UNITS: dict[int, str] = {
    0: "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
    3: "BHD IQD JOD KWD LYD OMR TND",
    4: "CLF UYW",
}
_METALS_FUNDS_TESTS = "XAG XAU XBA XBB XBC XBD XDR XPD XPT XSU XTS XUA XXX"
_NO_MONEY = frozenset(_METALS_FUNDS_TESTS.split())
_DIGITS = {code: digits for digits, codes in _MINOR_UNITS.items() for code in codes.split()}

# Wide enough that no sum of a studio is ever rounded by the arithmetic itself.
_EXACT = Context(prec=60, rounding=ROUND_HALF_UP, Emin=MIN_EMIN, Emax=MAX_EMAX)

_LONGEST_TYPED = 40
_TYPED_NUMBER = re.compile(r"[+\-\u2212]?[0-9][0-9.,'\u2019 \u00a0\u202f]*|[+\-\u2212]?[.,][0-9]+")
_SPACES = "\u00a0\u202f\u2009 "


class UnknownCurrency(ValueError):
    """Raised when a code is no currency that ISO 4217 lists for payments."""


class CurrencyMismatch(ValueError):
    """Raised when amounts of different currencies meet in one calculation or comparison."""


class AmountProblem(StrEnum):
    """What is wrong with an amount as somebody typed it."""

    EMPTY = "EMPTY"
    NOT_A_NUMBER = "NOT_A_NUMBER"
    AMBIGUOUS = "AMBIGUOUS"
    TOO_MANY_DECIMALS = "TOO_MANY_DECIMALS"
    OTHER_CURRENCY = "OTHER_CURRENCY"
    NEGATIVE = "NEGATIVE"
    TOO_LARGE = "TOO_LARGE"


class UnreadableAmount(ValueError):
    """Raised when a typed amount cannot be read without guessing; ``problem`` says why."""

    def __init__(self, problem: AmountProblem, text: str) -> None:
        super().__init__(f"{problem}: {text[:_LONGEST_TYPED]!r}")
        self.problem = problem
        self.text = text


@cache
def minor_units(currency: str) -> int:
    """Return how many decimals the currency is paid in.

    Parameters
    ----------
    currency : str
        ISO 4217 code in capitals.

    Returns
    -------
    int
        Number of decimals, 0 to 4. [1]

    Raises
    ------
    UnknownCurrency
        If ISO 4217 does not list ``currency``, or lists it as a metal, a fund or a test code.

    Examples
    --------
    >>> minor_units("GBP"), minor_units("JPY"), minor_units("BHD")
    (2, 0, 3)
    """
    known = pycountry.currencies.get(alpha_3=currency)
    if known is None or known.alpha_3 != currency or currency in _NO_MONEY:
        raise UnknownCurrency(currency)
    return _DIGITS.get(currency, 2)


def round_half_up(amount: Decimal, decimals: int = 2) -> Decimal:
    """Return the amount rounded half away from zero.

    Parameters
    ----------
    amount : Decimal
        Exact amount, finite. [currency units]
    decimals : int
        Decimals to keep, at least 0. [1]

    Returns
    -------
    Decimal
        Amount with exactly ``decimals`` decimals; never minus zero. [currency units]

    Raises
    ------
    ValueError
        If ``amount`` is infinite, not a number, or has more than 60 digits.

    Examples
    --------
    >>> round_half_up(Decimal("1.005")), round_half_up(Decimal("-1.005"))
    (Decimal('1.01'), Decimal('-1.01'))
    """
    if not amount.is_finite():
        raise ValueError("An amount of money is a finite number.")
    try:
        rounded = amount.quantize(Decimal(1).scaleb(-decimals), context=_EXACT)
    except InvalidOperation:
        raise ValueError("An amount of money has at most 60 digits.")
    return abs(rounded) if rounded.is_zero() else rounded


@dataclass(frozen=True, slots=True)
class Money:
    """An exact amount in one currency.

    Parameters
    ----------
    amount : Decimal
        Finite amount; may carry more decimals than the currency is paid in. [currency units]
    currency : str
        ISO 4217 code in capitals.

    Examples
    --------
    >>> Money(Decimal("86.6675"), "GBP") * Decimal("7.5")
    Money(amount=Decimal('650.00625'), currency='GBP')
    >>> (Money(Decimal("86.6675"), "GBP") * Decimal("7.5")).rounded()
    Money(amount=Decimal('650.01'), currency='GBP')
    """

    amount: Decimal
    currency: str

    def __post_init__(self) -> None:
        if not isinstance(self.amount, Decimal):
            raise TypeError("Money takes a Decimal, never a float.")
        if not self.amount.is_finite():
            raise ValueError("An amount of money is a finite number.")
        minor_units(self.currency)

    @property
    def is_zero(self) -> bool:
        """Whether nothing is owed either way."""
        return self.amount.is_zero()

    def rounded(self) -> Money:
        """Return the amount as it can be paid, half away from zero."""
        return Money(round_half_up(self.amount, minor_units(self.currency)), self.currency)

    def percent(self, share: Decimal) -> Money:
        """Return ``share`` per cent of the amount, exact."""
        return Money(_EXACT.divide(_EXACT.multiply(self.amount, share), Decimal(100)), self.currency)

    def _same(self, other: Money) -> None:
        if self.currency != other.currency:
            raise CurrencyMismatch(f"{self.currency} and {other.currency}")

    def __add__(self, other: Money) -> Money:
        self._same(other)
        return Money(_EXACT.add(self.amount, other.amount), self.currency)

    def __sub__(self, other: Money) -> Money:
        self._same(other)
        return Money(_EXACT.subtract(self.amount, other.amount), self.currency)

    def __mul__(self, factor: Decimal | int) -> Money:
        if not isinstance(factor, (Decimal, int)):
            raise TypeError("Money is multiplied by a Decimal or an int, never a float.")
        return Money(_EXACT.multiply(self.amount, Decimal(factor)), self.currency)

    __rmul__ = __mul__

    def __neg__(self) -> Money:
        return Money(_EXACT.minus(self.amount), self.currency)

    def __abs__(self) -> Money:
        return Money(_EXACT.abs(self.amount), self.currency)

    def __lt__(self, other: Money) -> bool:
        self._same(other)
        return self.amount < other.amount

    def __le__(self, other: Money) -> bool:
        self._same(other)
        return self.amount <= other.amount

    def __gt__(self, other: Money) -> bool:
        self._same(other)
        return self.amount > other.amount

    def __ge__(self, other: Money) -> bool:
        self._same(other)
        return self.amount >= other.amount


def total(amounts: Iterable[Money], currency: str) -> Money:
    """Return the sum of amounts, nothing of them being zero of ``currency``.

    Parameters
    ----------
    amounts : Iterable[Money]
        Amounts, all in ``currency``.
    currency : str
        ISO 4217 code of the sum.

    Returns
    -------
    Money
        The exact sum.

    Raises
    ------
    CurrencyMismatch
        If an amount is in another currency.

    Examples
    --------
    >>> total([Money(Decimal("0.10"), "EUR"), Money(Decimal("0.20"), "EUR")], "EUR")
    Money(amount=Decimal('0.30'), currency='EUR')
    """
    result = Money(Decimal(0), currency)
    for amount in amounts:
        result = result + amount
    return result


def _format(money: Money, locale: str, decimals: int) -> str:
    name = locale.replace("-", "_")
    # A copy, because the locale's own pattern is shared by everybody who prints money.
    pattern = parse_pattern(Locale.parse(name).currency_formats["standard"].pattern)
    pattern.frac_prec = (decimals, decimals)
    amount = round_half_up(money.amount, decimals)
    printed: str = pattern.apply(amount, name, currency=money.currency, currency_digits=False)
    return printed


def format_money(money: Money, locale: str = "en_GB") -> str:
    """Return the amount as the locale prints it, rounded to what can be paid.

    Parameters
    ----------
    money : Money
        The amount.
    locale : str
        Locale such as ``en_GB`` or ``de-DE``.

    Returns
    -------
    str
        Text with the locale's symbol and separators; spaces inside are non-breaking.

    Raises
    ------
    babel.core.UnknownLocaleError
        If CLDR has no such locale.

    Examples
    --------
    >>> format_money(Money(Decimal("1234.5"), "GBP"), "en_GB")
    '£1,234.50'
    """
    return _format(money, locale, minor_units(money.currency))


def format_unit_price(money: Money, locale: str = "en_GB") -> str:
    """Return a unit price with every decimal it has, at least those of the currency.

    Parameters
    ----------
    money : Money
        The price of one unit.
    locale : str
        Locale such as ``en_GB`` or ``de-DE``.

    Returns
    -------
    str
        Text in which quantity times price can be checked by hand.

    Raises
    ------
    babel.core.UnknownLocaleError
        If CLDR has no such locale.

    Examples
    --------
    >>> format_unit_price(Money(Decimal("86.6675"), "GBP"), "en_GB")
    '£86.6675'
    >>> format_unit_price(Money(Decimal("0.450"), "GBP"), "en_GB")
    '£0.45'
    """
    exponent = money.amount.normalize(_EXACT).as_tuple().exponent
    written = -exponent if isinstance(exponent, int) else 0
    return _format(money, locale, max(minor_units(money.currency), written))


def _marks(currency: str, locale: str) -> set[str]:
    symbols = {get_currency_symbol(currency, name) for name in (locale, "en", "en_US")}
    # "$" alone is what people write for their own dollar, whichever one it is.
    bare = {symbol[-1] for symbol in symbols if symbol[-1:] in "£$€¥"}
    return {mark.casefold() for mark in symbols | bare | {currency}}


def _strip_mark(text: str, currency: str, locale: str) -> str:
    found = re.fullmatch(r"([+\-\u2212]?)\s*([^\d\s.,+\-\u2212]*)\s*(.*?)\s*([^\d\s.,'\u2019]*)", text)
    if found is None:
        return text
    sign, before, number, after = found.groups()
    allowed = _marks(currency, locale)
    for mark in (before, after):
        if mark and mark.casefold() not in allowed:
            problem = AmountProblem.NOT_A_NUMBER
            code = mark.upper()
            if mark in "£$€¥" or pycountry.currencies.get(alpha_3=code) is not None:
                problem = AmountProblem.OTHER_CURRENCY
            raise UnreadableAmount(problem, text)
    return sign + number


def parse_amount(
    text: str,
    currency: str,
    locale: str = "en_GB",
    *,
    decimals: int | None = None,
    allow_negative: bool = False,
) -> Money:
    """Return the amount that somebody typed into a money field.

    Parameters
    ----------
    text : str
        What was typed: ``1,800``, ``1800.50``, ``£1,800``, ``1 800``, ``1800 GBP``.
    currency : str
        The currency that the field is in; another one in the text is refused.
    locale : str
        Locale whose separators the person uses, such as ``en_GB`` or ``de_DE``.
    decimals : int, optional
        Decimals that the field takes; the currency's own when left out. [1]
    allow_negative : bool
        Whether an amount below zero may be meant.

    Returns
    -------
    Money
        The amount exactly as typed.

    Raises
    ------
    UnreadableAmount
        If the text is empty, no number, could be read in two ways (``1,8`` in British English), has more
        decimals than the field takes, names another currency, is negative where that can't be meant, or
        has more than twelve digits before the decimal mark.
    UnknownCurrency
        If ``currency`` is not a currency.

    Examples
    --------
    >>> parse_amount("£1,800", "GBP")
    Money(amount=Decimal('1800'), currency='GBP')
    >>> parse_amount("1.800,50 €", "EUR", "de_DE")
    Money(amount=Decimal('1800.50'), currency='EUR')
    """
    places = minor_units(currency) if decimals is None else decimals
    name = locale.replace("-", "_")
    typed = text.strip().strip(_SPACES)
    if not typed:
        raise UnreadableAmount(AmountProblem.EMPTY, text)
    if len(typed) > _LONGEST_TYPED:
        raise UnreadableAmount(AmountProblem.TOO_LARGE, text)
    number = _strip_mark(typed, currency, name).replace("\u2212", "-").replace("'", "\u2019")
    if not _TYPED_NUMBER.fullmatch(number):
        raise UnreadableAmount(AmountProblem.NOT_A_NUMBER, text)
    # Spaces between groups of three are grouping in every locale; any other space is a slip.
    number = re.sub(rf"(?<=\d)[{_SPACES}](?=\d{{3}}(?!\d))", "", number)
    try:
        amount = parse_decimal(number, locale=name, strict=True)
    except NumberFormatError:
        problem = AmountProblem.NOT_A_NUMBER
        if re.fullmatch(r"[+-]?\d+([.,\u2019]\d+)+", number):
            problem = AmountProblem.AMBIGUOUS
        raise UnreadableAmount(problem, text)
    if amount.is_signed() and not amount.is_zero() and not allow_negative:
        raise UnreadableAmount(AmountProblem.NEGATIVE, text)
    if abs(amount) >= Decimal(10) ** 12:
        raise UnreadableAmount(AmountProblem.TOO_LARGE, text)
    if amount != round_half_up(amount, places):
        raise UnreadableAmount(AmountProblem.TOO_MANY_DECIMALS, text)
    exponent = amount.as_tuple().exponent
    if isinstance(exponent, int) and -exponent > max(places, 2):
        # "1.800" in a pounds field is more likely eighteen hundred typed the continental way than 1.80.
        raise UnreadableAmount(AmountProblem.AMBIGUOUS, text)
    return Money(abs(amount) if amount.is_zero() else amount, currency)
