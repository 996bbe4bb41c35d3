"""The text of a payment code. Expected values: tests/data/epc_qr.json (EPC069-12)."""

import json
from decimal import Decimal
from pathlib import Path

import pytest
import segno

from shoots.invoices.core.epc import EpcFault, NoEpcCode, epc_payload
from shoots.invoices.core.identifiers import InvalidIdentifier
from shoots.values.money import Money

DATA = json.loads((Path(__file__).parents[2] / "data" / "epc_qr.json").read_text(encoding="utf-8"))
FAULT_OF = {
    "below 0.01": EpcFault.AMOUNT,
    "above 999999999.99": EpcFault.AMOUNT,
    "name > 70": EpcFault.NAME,
    "structured and unstructured together": EpcFault.BOTH_TEXTS,
    "text > 140": EpcFault.TEXT,
    "EUR only": EpcFault.CURRENCY,
    "more than 2 decimals": EpcFault.AMOUNT,
}


def payload(name="Test Payee Ltd", iban="DE89370400440532013000", amount="1440.00", currency="EUR", **other):
    return epc_payload(Money(Decimal(amount), currency), name=name, iban=iban, **other)


@pytest.mark.parametrize("case", DATA["cases"], ids=lambda case: case["amount"])
def test_the_text_is_that_of_the_guidelines(case):
    fields = {key: value for key, value in case.items() if key != "payload"}
    assert payload(**fields) == case["payload"]


@pytest.mark.parametrize("case", DATA["must_reject"], ids=lambda case: case["why"])
def test_a_transfer_that_fits_no_code_is_refused_with_the_reason(case):
    with pytest.raises(NoEpcCode) as refusal:
        payload(**{key: value for key, value in case.items() if key != "why"})
    assert refusal.value.fault == FAULT_OF[case["why"]]


def test_every_case_fits_the_size_that_the_guidelines_allow():
    for case in DATA["cases"]:
        code = segno.make_qr(case["payload"], error="m", encoding="utf-8", boost_error=False)
        assert code.version <= 13


@pytest.mark.parametrize("name", ["", "   ", "Two\nlines"])
def test_a_name_is_one_line_with_something_in_it(name):
    with pytest.raises(NoEpcCode) as refusal:
        payload(name=name)
    assert refusal.value.fault == EpcFault.NAME


def test_a_line_end_in_the_text_cannot_add_a_field():
    with pytest.raises(NoEpcCode):
        payload(text="Invoice\nmore")


def test_letters_of_several_bytes_count_by_their_bytes():
    with pytest.raises(NoEpcCode) as refusal:
        payload(name="漢" * 70, text="漢" * 140)
    assert refusal.value.fault == EpcFault.LENGTH


@pytest.mark.parametrize("wrong", [{"iban": "DE00"}, {"bic": "NWBKGB2"}, {"reference": "RF00INV2026001"}], ids=str)
def test_a_number_that_is_not_well_formed_is_refused(wrong):
    with pytest.raises(InvalidIdentifier):
        payload(**wrong)
