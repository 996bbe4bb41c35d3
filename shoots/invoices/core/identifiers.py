"""Numbers that a payment is steered by: IBAN, BIC, sort code, RF reference, VAT number.

Check digits and country structures come from python-stdnum; here stands what it leaves open: separators
are spaces only (hyphens in sort codes), check digits lie between 02 and 98, and one error says what is
wrong. A number that passes is well-formed, which does not prove that the account or the firm exists.

References
----------
.. [1] ISO 13616-1 (IBAN: structure by country, check digits as ISO/IEC 7064 MOD 97-10).
.. [2] ISO 9362 (BIC).
.. [3] ISO 11649 (RF creditor reference).
.. [4] Worked numbers, good and bad: tests/data/payment_identifiers.json.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from typing import NoReturn

from stdnum import bic, iban, iso11649, numdb
from stdnum.exceptions import InvalidChecksum, InvalidComponent, InvalidLength, ValidationError
from stdnum.gb import vat as gb_vat
from stdnum.iso7064 import mod_97_10
from stdnum.util import get_cc_module

_SPACES = re.compile(r"\s+")
_CHECK_DIGITS = {f"{number:02}" for number in range(2, 99)}
_LONGEST_TYPED = 60


class Identifier(StrEnum):
    """Kinds of number read here."""

    IBAN = "IBAN"
    BIC = "BIC"
    SORT_CODE = "SORT_CODE"
    ACCOUNT_NUMBER = "ACCOUNT_NUMBER"
    RF_REFERENCE = "RF_REFERENCE"
    VAT_NUMBER = "VAT_NUMBER"


class Fault(StrEnum):
    """What is wrong with a number."""

    LENGTH = "LENGTH"
    CHARACTERS = "CHARACTERS"
    CHECK_DIGITS = "CHECK_DIGITS"
    COUNTRY = "COUNTRY"
    PREFIX = "PREFIX"


class InvalidIdentifier(ValueError):
    """Raised when a number is not well-formed; ``identifier`` and ``fault`` say which and why."""

    def __init__(self, identifier: Identifier, fault: Fault) -> None:
        super().__init__(f"{identifier}: {fault}")
        self.identifier = identifier
        self.fault = fault


@dataclass(frozen=True, slots=True)
class VatNumber:
    """A VAT number with its country prefix; ``is_checked`` is false where no check is known."""

    text: str
    country: str
    is_checked: bool


def _compact(identifier: Identifier, text: str, allowed: str = r"[0-9A-Z]*") -> str:
    if len(text) > _LONGEST_TYPED:
        raise InvalidIdentifier(identifier, Fault.LENGTH)
    number = _SPACES.sub("", text).upper()
    if not number:
        raise InvalidIdentifier(identifier, Fault.LENGTH)
    if not number.isascii() or not re.fullmatch(allowed, number):
        raise InvalidIdentifier(identifier, Fault.CHARACTERS)
    return number


def _refuse(identifier: Identifier, error: ValidationError) -> NoReturn:
    fault = Fault.CHARACTERS
    if isinstance(error, InvalidChecksum):
        fault = Fault.CHECK_DIGITS
    elif isinstance(error, InvalidLength):
        fault = Fault.LENGTH
    elif isinstance(error, InvalidComponent):
        fault = Fault.COUNTRY
    raise InvalidIdentifier(identifier, fault) from error


def _in_fours(number: str) -> str:
    return " ".join(number[start : start + 4] for start in range(0, len(number), 4))


def read_iban(text: str) -> str:
    """Return a typed IBAN without spaces and in capitals.

    Parameters
    ----------
    text : str
        What was typed; spaces and small letters are fine, hyphens are not.

    Returns
    -------
    str
        The IBAN as it is transmitted.

    Raises
    ------
    InvalidIdentifier
        If length, characters, country or check digits are wrong.

    Examples
    --------
    >>> read_iban("gb29 NWBK 6016 1331 9268 19")
    'GB29NWBK60161331926819'
    """
    number = _compact(Identifier.IBAN, text)
    if len(number) > 34 or len(number) < 5:
        raise InvalidIdentifier(Identifier.IBAN, Fault.LENGTH)
    if not re.fullmatch(r"[A-Z]{2}[0-9]{2}.*", number):
        raise InvalidIdentifier(Identifier.IBAN, Fault.CHARACTERS)
    structure = dict(numdb.get("iban").info(number)[0][1]).get("bban")
    if structure is None:
        raise InvalidIdentifier(Identifier.IBAN, Fault.COUNTRY)
    if len(number) != 4 + sum(int(part) for part in re.findall(r"\d+", structure)):
        raise InvalidIdentifier(Identifier.IBAN, Fault.LENGTH)
    if number[2:4] not in _CHECK_DIGITS:
        raise InvalidIdentifier(Identifier.IBAN, Fault.CHECK_DIGITS)
    try:
        # National account rules are left out: the library's Belgian one refuses the registry's own example.
        return iban.validate(number, check_country=False)
    except ValidationError as error:
        _refuse(Identifier.IBAN, error)


def print_iban(number: str) -> str:
    """Return an IBAN in groups of four, as ISO 13616 prints it.

    Parameters
    ----------
    number : str
        IBAN as ``read_iban`` returns it.

    Returns
    -------
    str
        The IBAN with spaces.

    Examples
    --------
    >>> print_iban("BR1800360305000010009795493C1")
    'BR18 0036 0305 0000 1000 9795 493C 1'
    """
    return _in_fours(number)


def read_bic(text: str) -> str:
    """Return a typed BIC in capitals.

    Parameters
    ----------
    text : str
        What was typed: four letters, country, two characters, and three more for a branch.

    Returns
    -------
    str
        The BIC of eight or eleven characters.

    Raises
    ------
    InvalidIdentifier
        If length, characters or country are wrong.

    Examples
    --------
    >>> read_bic("deutdeff 500")
    'DEUTDEFF500'
    """
    number = _compact(Identifier.BIC, text)
    try:
        return bic.validate(number)
    except ValidationError as error:
        _refuse(Identifier.BIC, error)


def read_sort_code(text: str) -> str:
    """Return a typed UK sort code as six digits.

    Parameters
    ----------
    text : str
        Six digits, or three pairs with hyphens or spaces between them.

    Returns
    -------
    str
        Six digits; whether a bank has that code is not checked.

    Raises
    ------
    InvalidIdentifier
        If it is anything else.

    Examples
    --------
    >>> read_sort_code("60-16-13")
    '601613'
    """
    typed = text.strip()
    if re.fullmatch(r"[0-9]{6}|[0-9]{2}([- ])[0-9]{2}\1[0-9]{2}", typed):
        return re.sub(r"[- ]", "", typed)
    clean = re.sub(r"[-\s]", "", typed)
    wrong_length = clean.isascii() and clean.isdigit() and len(clean) != 6
    raise InvalidIdentifier(Identifier.SORT_CODE, Fault.LENGTH if wrong_length else Fault.CHARACTERS)


def print_sort_code(number: str) -> str:
    """Return a sort code in pairs.

    Parameters
    ----------
    number : str
        Six digits.

    Returns
    -------
    str
        Three pairs with hyphens.

    Examples
    --------
    >>> print_sort_code("601613")
    '60-16-13'
    """
    return "-".join((number[:2], number[2:4], number[4:]))


def read_account_number(text: str) -> str:
    """Return a typed UK account number as eight digits.

    Parameters
    ----------
    text : str
        Eight digits, spaces allowed; shorter numbers must be filled up as the bank says.

    Returns
    -------
    str
        Eight digits; the banks' own modulus tables are not open, so they are not checked.

    Raises
    ------
    InvalidIdentifier
        If it is anything else.

    Examples
    --------
    >>> read_account_number("3192 6819")
    '31926819'
    """
    number = _compact(Identifier.ACCOUNT_NUMBER, text, r"[0-9]*")
    if len(number) != 8:
        raise InvalidIdentifier(Identifier.ACCOUNT_NUMBER, Fault.LENGTH)
    return number


def make_rf_reference(body: str) -> str:
    """Return an RF creditor reference for a number of ours.

    Parameters
    ----------
    body : str
        Letters and digits, 1 to 21 of them after spaces and the separators - / . are dropped.

    Returns
    -------
    str
        ``RF``, two check digits and the body.

    Raises
    ------
    InvalidIdentifier
        If nothing or more than 21 characters are left, or other characters stand in it.

    References
    ----------
    ISO 11649; check digits as ISO/IEC 7064 MOD 97-10 over the body followed by ``RF00``.

    Examples
    --------
    >>> make_rf_reference("INV-2026-001")
    'RF10INV2026001'
    """
    number = _compact(Identifier.RF_REFERENCE, re.sub(r"[-/.]", "", body))
    if len(number) > 21:
        raise InvalidIdentifier(Identifier.RF_REFERENCE, Fault.LENGTH)
    return f"RF{mod_97_10.calc_check_digits(number + 'RF')}{number}"


def read_rf_reference(text: str) -> str:
    """Return a typed RF reference without spaces and in capitals.

    Parameters
    ----------
    text : str
        What was typed.

    Returns
    -------
    str
        The reference as it is transmitted.

    Raises
    ------
    InvalidIdentifier
        If prefix, length, characters or check digits are wrong.

    Examples
    --------
    >>> read_rf_reference("RF18 5390 0754 7034")
    'RF18539007547034'
    """
    number = _compact(Identifier.RF_REFERENCE, text)
    if not number.startswith("RF"):
        raise InvalidIdentifier(Identifier.RF_REFERENCE, Fault.PREFIX)
    if not 5 <= len(number) <= 25:
        raise InvalidIdentifier(Identifier.RF_REFERENCE, Fault.LENGTH)
    if number[2:4] not in _CHECK_DIGITS:
        raise InvalidIdentifier(Identifier.RF_REFERENCE, Fault.CHECK_DIGITS)
    try:
        return iso11649.validate(number)
    except ValidationError as error:
        _refuse(Identifier.RF_REFERENCE, error)


def print_rf_reference(number: str) -> str:
    """Return an RF reference in groups of four.

    Parameters
    ----------
    number : str
        Reference as ``make_rf_reference`` returns it.

    Returns
    -------
    str
        The reference with spaces.

    Examples
    --------
    >>> print_rf_reference("RF18539007547034")
    'RF18 5390 0754 7034'
    """
    return _in_fours(number)


def read_vat_number(text: str, country: str) -> VatNumber:
    """Return a typed VAT number with its country prefix.

    Parameters
    ----------
    text : str
        What was typed, with or without the prefix; spaces, dots and hyphens are dropped.
    country : str
        ISO 3166 code of the country that gave it, ``XI`` for Northern Ireland; ``GR`` and ``EL`` are one.

    Returns
    -------
    VatNumber
        The number; ``is_checked`` is false for countries whose check digits are not known here.

    Raises
    ------
    InvalidIdentifier
        If length, characters or check digits are wrong, or the prefix is of another country.

    Examples
    --------
    >>> read_vat_number("GB 980 7806 84", "GB")
    VatNumber(text='GB980780684', country='GB', is_checked=True)
    """
    number = _compact(Identifier.VAT_NUMBER, re.sub(r"[.\-]", "", text))
    place = {"EL": "GR"}.get(country.upper(), country.upper())
    prefix = {"GR": "EL", "CH": "CHE"}.get(place, place)
    module = gb_vat if place == "XI" else get_cc_module(place.lower(), "vat")
    if module is None:
        if not re.fullmatch(r"[0-9A-Z]{4,20}", number):
            raise InvalidIdentifier(Identifier.VAT_NUMBER, Fault.LENGTH)
        return VatNumber(number, place, is_checked=False)
    other = number[:2] if re.fullmatch(r"[A-Z]{2}", number[:2]) else ""
    is_foreign = bool(other) and other != prefix[:2] and get_cc_module(other.lower(), "vat") is not None
    if place == "XI" and is_foreign:
        raise InvalidIdentifier(Identifier.VAT_NUMBER, Fault.PREFIX)
    try:
        checked = module.validate(number.removeprefix("XI") if place == "XI" else number)
    except ValidationError as error:
        if is_foreign:
            raise InvalidIdentifier(Identifier.VAT_NUMBER, Fault.PREFIX) from error
        _refuse(Identifier.VAT_NUMBER, error)
    digits = str(checked).removeprefix(prefix)
    return VatNumber(prefix + digits, place, is_checked=True)
