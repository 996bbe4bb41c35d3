"""Numbers that payments are steered by.

Expected values: tests/data/payment_identifiers.json (registry examples of ISO 13616, ISO 9362, ISO 11649
and UK numbers, good and bad); an own mod-97 as an independent check of the library behind it.
"""

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.invoices.core.identifiers import (
    Fault,
    Identifier,
    InvalidIdentifier,
    make_rf_reference,
    print_iban,
    print_rf_reference,
    print_sort_code,
    read_account_number,
    read_bic,
    read_iban,
    read_rf_reference,
    read_sort_code,
    read_vat_number,
)

DATA = json.loads((Path(__file__).parents[2] / "data" / "payment_identifiers.json").read_text(encoding="utf-8"))
LETTERS_DIGITS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
FAULT_OF = {
    "check digits": Fault.CHECK_DIGITS,
    "length": Fault.LENGTH,
    "unknown country": Fault.COUNTRY,
    "check digits 00": Fault.CHECK_DIGITS,
    "characters": Fault.CHARACTERS,
    "check": Fault.CHECK_DIGITS,
    "too long (max 25)": Fault.LENGTH,
    "prefix": Fault.PREFIX,
    "character": Fault.CHARACTERS,
}


def remainder(number):
    """ISO/IEC 7064 MOD 97-10 by hand: first four to the end, A = 10 to Z = 35."""
    turned = number[4:] + number[:4]
    return int("".join(str(LETTERS_DIGITS.index(sign)) for sign in turned)) % 97


@pytest.mark.parametrize("case", DATA["iban_valid"], ids=lambda case: case["iban"])
def test_an_iban_of_the_registry_is_read_and_printed(case):
    assert read_iban(case["iban"]) == case["iban"]
    assert print_iban(case["iban"]) == case["print_form"]
    assert read_iban(case["print_form"].lower()) == case["iban"]


@pytest.mark.parametrize("case", DATA["iban_invalid"], ids=lambda case: case["why"])
def test_a_wrong_iban_is_refused_with_the_reason(case):
    with pytest.raises(InvalidIdentifier) as refusal:
        read_iban(case["iban"])
    assert (refusal.value.identifier, refusal.value.fault) == (Identifier.IBAN, FAULT_OF[case["why"]])


@given(st.sampled_from(DATA["iban_valid"]), st.data())
def test_one_wrong_digit_is_always_found(case, data):
    number = case["iban"]
    place = data.draw(st.integers(2, len(number) - 1))
    other = data.draw(st.sampled_from([sign for sign in "0123456789" if sign != number[place]]))
    with pytest.raises(InvalidIdentifier):
        read_iban(number[:place] + other + number[place + 1 :])


# 97 and 00, 98 and 01, 02 and 99 leave the same remainder; only the first of each is what ISO 7064 computes.
@pytest.mark.parametrize(("computed", "twin"), [("97", "00"), ("98", "01"), ("02", "99")])
def test_check_digits_with_the_right_remainder_outside_02_to_98_are_refused(computed, twin):
    bodies = (f"{number:04}" for number in range(10000))
    body = next(body for body in bodies if make_rf_reference(body)[2:4] == computed)
    assert remainder(f"RF{twin}{body}") == 1
    with pytest.raises(InvalidIdentifier) as refusal:
        read_rf_reference(f"RF{twin}{body}")
    assert refusal.value.fault == Fault.CHECK_DIGITS
    account = next(
        account for account in (f"{number:012}" for number in range(10000)) if remainder(f"BE{computed}{account}") == 1
    )
    assert read_iban(f"BE{computed}{account}")
    with pytest.raises(InvalidIdentifier) as refusal:
        read_iban(f"BE{twin}{account}")
    assert refusal.value.fault == Fault.CHECK_DIGITS


@pytest.mark.parametrize("case", DATA["rf_from_body"], ids=lambda case: case["rf"])
def test_a_reference_is_made_from_a_number_and_read_again(case):
    assert make_rf_reference(case["body"]) == case["rf"]
    assert read_rf_reference(print_rf_reference(case["rf"])) == case["rf"]


@pytest.mark.parametrize("case", DATA["rf_invalid"], ids=lambda case: case["rf"])
def test_a_wrong_reference_is_refused_with_the_reason(case):
    with pytest.raises(InvalidIdentifier) as refusal:
        read_rf_reference(case["rf"])
    assert refusal.value.fault == FAULT_OF[case["why"]]


@given(st.text(LETTERS_DIGITS, min_size=1, max_size=21))
def test_every_reference_we_make_passes_an_independent_check(body):
    reference = make_rf_reference(body)
    assert remainder(reference) == 1
    assert 2 <= int(reference[2:4]) <= 98
    assert read_rf_reference(reference) == reference


@pytest.mark.parametrize("body", ["", "  ", "---", "1" * 22, "RÜCK1", "A_1"])
def test_a_body_that_fits_no_reference_is_refused(body):
    with pytest.raises(InvalidIdentifier):
        make_rf_reference(body)


@pytest.mark.parametrize("number", DATA["bic_valid"])
def test_a_bic_is_read(number):
    assert read_bic(number.lower()) == number


@pytest.mark.parametrize("number", [*DATA["bic_invalid"], "", "NWBKQQ2L", "NWBK-GB2L"])
def test_a_wrong_bic_is_refused(number):
    with pytest.raises(InvalidIdentifier):
        read_bic(number)


@pytest.mark.parametrize("typed", DATA["sort_code_valid"])
def test_a_sort_code_is_read_and_printed_in_pairs(typed):
    digits = typed.replace("-", "")
    assert read_sort_code(typed) == digits
    assert print_sort_code(digits) == f"{digits[:2]}-{digits[2:4]}-{digits[4:]}"


@pytest.mark.parametrize("typed", [*DATA["sort_code_invalid"], "", "60-16 13", "６０１６１３"])
def test_a_wrong_sort_code_is_refused(typed):
    with pytest.raises(InvalidIdentifier):
        read_sort_code(typed)


def test_an_account_number_has_eight_digits():
    assert read_account_number("3192 6819") == "31926819"
    for typed in ("3192681", "319268190", "3192681A", ""):
        with pytest.raises(InvalidIdentifier):
            read_account_number(typed)


@pytest.mark.parametrize("number", DATA["gb_vat_valid"])
def test_a_uk_vat_number_is_read_with_or_without_its_prefix(number):
    for typed in (number, f"GB{number}", f"gb {number}"):
        assert read_vat_number(typed, "GB").text == f"GB{number}"


@pytest.mark.parametrize("number", DATA["gb_vat_invalid"])
def test_a_wrong_uk_vat_number_is_refused(number):
    with pytest.raises(InvalidIdentifier):
        read_vat_number(number, "GB")


# The German number is the buyer's in PUB-07 of tests/data/invoice_totals.json; the others are the examples
# in python-stdnum's own documentation.
@pytest.mark.parametrize(
    ("typed", "country", "text"),
    [
        ("DE136695976", "DE", "DE136695976"),
        ("136695976", "DE", "DE136695976"),
        ("094259216", "GR", "EL094259216"),
        ("EL094259216", "EL", "EL094259216"),
        ("CHE-100.155.212 MWST", "CH", "CHE100155212MWST"),
        ("IE6433435F", "IE", "IE6433435F"),
        ("980780684", "XI", "XI980780684"),
    ],
)
def test_a_vat_number_of_another_country_is_read(typed, country, text):
    number = read_vat_number(typed, country)
    assert (number.text, number.is_checked) == (text, True)


@pytest.mark.parametrize(("typed", "country"), [("DE136695976", "FR"), ("GB980780684", "XI")])
def test_a_vat_number_of_the_wrong_country_is_refused(typed, country):
    with pytest.raises(InvalidIdentifier) as refusal:
        read_vat_number(typed, country)
    assert refusal.value.fault == Fault.PREFIX


def test_a_number_that_nobody_here_can_check_says_so():
    assert not read_vat_number("12-3456789", "US").is_checked
    with pytest.raises(InvalidIdentifier):
        read_vat_number("1", "US")


READERS = [read_iban, read_bic, read_sort_code, read_account_number, read_rf_reference]


@given(st.sampled_from(READERS), st.text(max_size=70))
def test_any_text_is_read_or_refused_and_nothing_else_happens(reader, text):
    try:
        assert reader(text)
    except InvalidIdentifier as refusal:
        assert refusal.fault in Fault


@given(st.sampled_from(["GB", "DE", "FR", "IE", "US", "CH", "XI", "EL", ""]), st.text(max_size=70))
def test_any_vat_number_is_read_or_refused_and_nothing_else_happens(country, text):
    try:
        assert read_vat_number(text, country).text
    except InvalidIdentifier as refusal:
        assert refusal.identifier == Identifier.VAT_NUMBER
