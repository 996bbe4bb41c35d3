"""May this be used there, then, by them?

Own rules; last days are those of tests/data/licence_period.json (12 months from 2026-02-01 end on
2027-01-31). A brute-force reading of the clauses checks the answers of random licences.
"""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.rights.core.answer import Question, Reason, Verdict, may_use
from shoots.rights.core.terms import Condition, ConditionKind, Medium, Term, Use
from shoots.rights.core.territories import UnknownCountry, territory, world

START = date(2026, 2, 1)
LAST = date(2027, 1, 31)


def use(clause="2.1", **changes):
    values = {
        "clause": clause,
        "media": frozenset({Medium.OWN_WEBSITE, Medium.PAID_SOCIAL}),
        "territory": territory(["GB", "IE"]),
        "term": Term(START, 12),
        "licensees": frozenset({"brand"}),
    }
    return Use(**(values | changes))


def ask(*uses, medium=Medium.OWN_WEBSITE, country="GB", on=START, by="brand", picture=None):
    return may_use(uses, Question(medium, country, on, by, picture))


@pytest.mark.parametrize("on", [START, LAST])
def test_first_and_last_day_are_inside(on):
    answer = ask(use(), on=on)
    assert (answer.verdict, answer.clause, answer.last_day) == (Verdict.YES, "2.1", LAST)


def test_the_day_before_is_not_yet_and_names_the_first_day():
    answer = ask(use(), on=START - timedelta(days=1))
    assert (answer.verdict, answer.reasons, answer.from_day) == (
        Verdict.NOT_YET,
        (Reason.NOT_STARTED,),
        START,
    )


def test_the_day_after_is_no_and_names_the_last_day():
    answer = ask(use(), on=LAST + timedelta(days=1))
    assert (answer.verdict, answer.reasons, answer.last_day) == (Verdict.NO, (Reason.ENDED,), LAST)


def test_until_the_invoice_is_paid_it_is_not_yet():
    unpaid = Condition(ConditionKind.INVOICE_PAID, reference="INV-2026-0007")
    answer = ask(use(conditions=(unpaid,)), on=date(2026, 3, 1))
    assert (answer.verdict, answer.waits_for, answer.from_day) == (Verdict.NOT_YET, (unpaid,), None)


def test_payment_opens_the_use_from_its_day_on():
    paid = Condition(ConditionKind.INVOICE_PAID, fulfilled_on=date(2026, 3, 10))
    before = ask(use(conditions=(paid,)), on=date(2026, 3, 9))
    assert (before.verdict, before.from_day) == (Verdict.NOT_YET, date(2026, 3, 10))
    assert ask(use(conditions=(paid,)), on=date(2026, 3, 10)).verdict is Verdict.YES


def test_an_open_start_is_not_yet_without_a_day():
    answer = ask(use(term=Term(None, 12)))
    assert (answer.verdict, answer.reasons, answer.from_day) == (Verdict.NOT_YET, (Reason.START_OPEN,), None)


def test_a_yes_names_the_duties_that_go_with_it():
    credit = Condition(ConditionKind.CREDIT_LINE)
    assert ask(use(conditions=(credit,))).duties == (credit,)


@pytest.mark.parametrize(
    ("question", "reason"),
    [
        ({"country": "US"}, Reason.TERRITORY_NOT_GRANTED),
        ({"country": None}, Reason.TERRITORY_NOT_GRANTED),
        ({"by": "distributor"}, Reason.PARTY_NOT_LICENSED),
        ({"picture": "p9"}, Reason.PICTURE_NOT_LICENSED),
        ({"picture": None}, Reason.PICTURE_NOT_LICENSED),
    ],
    ids=str,
)
def test_what_the_clause_does_not_grant_is_no_with_the_reason(question, reason):
    answer = ask(use(pictures=frozenset({"p1"})), **({"picture": "p1"} | question))
    assert (answer.verdict, answer.clause, answer.reasons) == (Verdict.NO, "2.1", (reason,))


def test_a_country_left_out_is_told_apart_from_one_never_granted():
    answer = ask(use(territory=world(excluded=["US"])), country="US")
    assert answer.reasons == (Reason.TERRITORY_EXCLUDED,)


def test_a_medium_that_no_clause_is_about_is_a_plain_no():
    for clauses in ([], [use()]):
        answer = ask(*clauses, medium=Medium.PACKAGING)
        assert (answer.verdict, answer.clause, answer.reasons) == (
            Verdict.NO,
            None,
            (Reason.MEDIUM_NOT_GRANTED,),
        )


def test_an_ended_grant_whose_invoice_was_never_paid_is_no():
    unpaid = Condition(ConditionKind.INVOICE_PAID)
    answer = ask(use(conditions=(unpaid,)), on=LAST + timedelta(days=1))
    assert answer.verdict is Verdict.NO


def test_a_renewal_answers_when_the_first_clause_has_ended():
    renewal = use("3.1", term=Term(LAST + timedelta(days=1), 12))
    assert ask(use(), renewal, on=date(2027, 6, 1)).clause == "3.1"
    assert ask(use(), renewal, on=date(2026, 6, 1)).clause == "2.1"


def test_the_clause_that_opens_soonest_is_named():
    later, sooner = use("2.1", term=Term(date(2026, 9, 1), 12)), use("2.2", term=Term(date(2026, 5, 1), 12))
    assert ask(later, sooner, on=date(2026, 3, 1)).clause == "2.2"


def test_the_nearest_miss_is_named_and_only_among_clauses_on_that_medium():
    far = use("2.1", licensees=frozenset({"other"}), territory=territory(["JP"]))
    near = use("2.2", territory=territory(["JP"]))
    elsewhere = use("2.3", media=frozenset({Medium.PACKAGING}))
    assert ask(far, near, elsewhere).clause == "2.2"


def test_a_question_about_no_country_is_refused():
    with pytest.raises(UnknownCountry):
        ask(use(), country="UK")


DAYS = st.dates(min_value=date(2026, 1, 1), max_value=date(2028, 12, 31))
CODES = st.sampled_from(["GB", "IE", "FR"])
USES = st.builds(
    Use,
    clause=st.sampled_from(["1", "2", "3"]),
    media=st.frozensets(st.sampled_from([Medium.EMAIL, Medium.PACKAGING]), min_size=1),
    territory=st.builds(territory, st.frozensets(CODES, min_size=1)),
    term=st.builds(Term, st.none() | DAYS, st.none() | st.integers(1, 24)),
    licensees=st.frozensets(st.sampled_from(["brand", "agency"]), min_size=1),
    conditions=st.lists(
        st.builds(
            Condition,
            st.sampled_from([ConditionKind.INVOICE_PAID, ConditionKind.CREDIT_LINE]),
            st.none() | DAYS,
        ),
        max_size=2,
    ).map(tuple),
)


@given(st.lists(USES, max_size=4), DAYS, CODES, st.sampled_from(["brand", "agency"]))
def test_yes_is_said_exactly_when_some_clause_allows_everything_asked(uses, on, country, by):
    def allows(clause):
        waits = [condition for condition in clause.conditions if condition.kind == ConditionKind.INVOICE_PAID]
        paid = all(wait.fulfilled_on is not None and wait.fulfilled_on <= on for wait in waits)
        started = clause.term.start is not None and clause.term.start <= on
        runs = started and (clause.term.months is None or on <= clause.term.period.last_day)
        fits = Medium.EMAIL in clause.media and country in clause.territory.countries
        return fits and by in clause.licensees and paid and runs

    answer = may_use(uses, Question(Medium.EMAIL, country, on, by))
    assert (answer.verdict is Verdict.YES) == any(allows(clause) for clause in uses)


@given(st.lists(USES, min_size=1, max_size=4), DAYS, CODES)
def test_a_named_first_day_really_is_the_first_yes_of_that_clause(uses, on, country):
    answer = may_use(uses, Question(Medium.EMAIL, country, on, "brand"))
    if answer.verdict is Verdict.NOT_YET and answer.from_day is not None:
        assert answer.from_day > on
        assert ask(*uses, medium=Medium.EMAIL, country=country, on=answer.from_day).verdict is Verdict.YES
