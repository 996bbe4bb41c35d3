"""The text of the QR code that a European banking app reads a credit transfer from.

Euro only: an invoice in another currency has no such code. Drawing it (error level M, version 13 at most)
is the shell's work.

References
----------
.. [1] European Payments Council, EPC069-12 v2.1, "Quick Response code: guidelines to enable data capture
   for the initiation of a SEPA credit transfer".
.. [2] Worked payloads: tests/data/epc_qr.json.
"""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum

from shoots.invoices.core.identifiers import read_bic, read_iban, read_rf_reference
from shoots.values.money import Money, round_half_up

LONGEST_NAME, LONGEST_TEXT, LONGEST_PAYLOAD = 70, 140, 331
_LEAST, _MOST = Decimal("0.01"), Decimal("999999999.99")


class EpcFault(StrEnum):
    """Why a transfer fits no code."""

    CURRENCY = "CURRENCY"
    AMOUNT = "AMOUNT"
    NAME = "NAME"
    TEXT = "TEXT"
    BOTH_TEXTS = "BOTH_TEXTS"
    LENGTH = "LENGTH"


class NoEpcCode(ValueError):
    """Raised when a transfer fits no code; ``fault`` says why."""

    def __init__(self, fault: EpcFault) -> None:
        super().__init__(str(fault))
        self.fault = fault


def epc_payload(amount: Money, *, name: str, iban: str, bic: str = "", reference: str = "", text: str = "") -> str:
    """Return the lines of the code for one transfer.

    Parameters
    ----------
    amount : Money
        What is to be paid, 0.01 to 999,999,999.99 euros, at most two decimals.
    name : str
        Name of the account's holder, at most 70 characters.
    iban : str
        IBAN of the account.
    bic : str
        BIC of the bank; may be left out inside the EEA.
    reference : str
        RF reference; not together with ``text``.
    text : str
        Free text for the transfer, at most 140 characters; not together with ``reference``.

    Returns
    -------
    str
        Lines with LF between them, UTF-8, empty ones at the end left out.

    Raises
    ------
    NoEpcCode
        If currency, amount, name or text don't fit, or the whole has more than 331 bytes.
    InvalidIdentifier
        If IBAN, BIC or reference are not well-formed.

    References
    ----------
    EPC069-12 v2.1; tests/data/epc_qr.json.

    Examples
    --------
    >>> lines = epc_payload(
    ...     Money(Decimal("1440"), "EUR"),
    ...     name="Test Payee Ltd",
    ...     iban="DE89 3704 0044 0532 0130 00",
    ...     reference="RF10INV2026001",
    ... ).split("\\n")
    >>> lines[0], lines[1], lines[7], lines[9]
    ('BCD', '002', 'EUR1440.00', 'RF10INV2026001')
    """
    if amount.currency != "EUR":
        raise NoEpcCode(EpcFault.CURRENCY)
    if not _LEAST <= amount.amount <= _MOST or round_half_up(amount.amount) != amount.amount:
        raise NoEpcCode(EpcFault.AMOUNT)
    if not 1 <= len(name.strip()) <= LONGEST_NAME or not name.isprintable():
        raise NoEpcCode(EpcFault.NAME)
    if len(text) > LONGEST_TEXT or not text.isprintable():
        raise NoEpcCode(EpcFault.TEXT)
    if reference and text:
        raise NoEpcCode(EpcFault.BOTH_TEXTS)
    lines = [
        "BCD",
        "002",
        "1",
        "SCT",
        read_bic(bic) if bic else "",
        name.strip(),
        read_iban(iban),
        f"EUR{round_half_up(amount.amount)}",
        "",
        read_rf_reference(reference) if reference else "",
        text.strip(),
    ]
    payload = "\n".join(lines).rstrip("\n")
    if len(payload.encode()) > LONGEST_PAYLOAD:
        raise NoEpcCode(EpcFault.LENGTH)
    return payload
