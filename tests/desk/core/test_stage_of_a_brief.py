"""Where a shoot stands while its brief is with the client. The table is the definition: own derivation, no source."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from shoots.desk.core.facts import BriefFacts, DayFacts, QuoteFacts, ShootFacts
from shoots.desk.core.stage import standing_of
from shoots.desk.core.standing import Lack, Missing, Next, Stage

NOW = datetime(2026, 5, 14, 9, 30, tzinfo=UTC)
TODAY = date(2026, 5, 14)
BRIEFED: dict[str, Any] = {"calls": 1, "brief_begun": True, "shots": 12}


def days(number: int) -> date:
    return TODAY + timedelta(days=number)


def brief(**known: Any) -> BriefFacts:
    return BriefFacts(**{"pk": 4, "number": 2, "sent_on": days(-3), **known})


def quote(**known: Any) -> QuoteFacts:
    return QuoteFacts(**{"pk": 7, "label": "26-004-1", "made_at": NOW, **known})


def sent() -> QuoteFacts:
    until = NOW + timedelta(days=10)
    return quote(sent_on=days(-2), valid_until=until, valid_until_on=until.date())


WRAPPED = DayFacts(pk=3, on=days(-3), written_at=NOW, is_confirmed=True, wrapped_on=days(-3))
CASES = {
    "brief with the client": ({**BRIEFED, "briefs": (brief(),)}, Stage.BRIEF_SENT, Next.AWAIT_APPROVAL),
    "brief with the client though drafts and questions are open": (
        {"calls": 1, "open_drafts": 5, "open_questions": 2, "briefs": (brief(),)},
        Stage.BRIEF_SENT,
        Next.AWAIT_APPROVAL,
    ),
    "brief came back": (
        {**BRIEFED, "briefs": (brief(corrected_on=days(-1)),)},
        Stage.BRIEF_CORRECTED,
        Next.MEND_BRIEF,
    ),
    "brief came back while the quote is being written": (
        {**BRIEFED, "briefs": (brief(corrected_on=days(-1)),), "quotes": (quote(),)},
        Stage.BRIEF_CORRECTED,
        Next.MEND_BRIEF,
    ),
    "brief came back and was sent again": (
        {**BRIEFED, "briefs": (brief(number=1, corrected_on=days(-2), is_over=True), brief())},
        Stage.BRIEF_SENT,
        Next.AWAIT_APPROVAL,
    ),
    "brief came back and was approved all the same": (
        {**BRIEFED, "briefs": (brief(corrected_on=days(-2), approved_on=days(-1)),)},
        Stage.BRIEF_APPROVED,
        Next.WRITE_QUOTE,
    ),
    "brief approved without a list": (
        {"brief_begun": True, "briefs": (brief(approved_on=days(-1)),)},
        Stage.BRIEF_APPROVED,
        Next.LIST_SHOTS,
    ),
    "brief approved, quote being written": (
        {**BRIEFED, "briefs": (brief(approved_on=days(-1)),), "quotes": (quote(),)},
        Stage.QUOTE_DRAFT,
        Next.SEND_QUOTE,
    ),
    "brief withdrawn": ({**BRIEFED, "briefs": (brief(is_over=True),)}, Stage.UNPRICED, Next.WRITE_QUOTE),
    "brief came back while the quote is with the client": (
        {**BRIEFED, "briefs": (brief(corrected_on=days(-1)),), "quotes": (sent(),)},
        Stage.QUOTE_SENT,
        Next.AWAIT_ANSWER,
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_where_it_stands_and_what_comes_next(name: str) -> None:
    known, stage, step = CASES[name]
    found = standing_of(ShootFacts(now=NOW, today=TODAY, **known))
    assert (found.stage, found.step.code) == (stage, step)


def test_a_brief_that_came_back_is_missing_something_whatever_the_stage_until_it_was_shot() -> None:
    came_back = (brief(corrected_on=days(-1)),)
    facts = ShootFacts(now=NOW, today=TODAY, **{**BRIEFED, "briefs": came_back, "quotes": (sent(),)})
    assert Lack(Missing.CORRECTIONS) in standing_of(facts).missing
    shot = ShootFacts(now=NOW, today=TODAY, **{**BRIEFED, "days": (WRAPPED,), "briefs": came_back})
    assert Lack(Missing.CORRECTIONS) not in standing_of(shot).missing


def test_a_brief_that_came_back_between_two_days_still_counts() -> None:
    ahead = DayFacts(pk=5, on=days(4), written_at=NOW, is_confirmed=True)
    known = {**BRIEFED, "days": (WRAPPED, ahead), "briefs": (brief(corrected_on=days(-1)),)}
    assert Lack(Missing.CORRECTIONS) in standing_of(ShootFacts(now=NOW, today=TODAY, **known)).missing


def test_crew_hear_nothing_of_the_brief_s_way_to_the_client() -> None:
    facts = ShootFacts(now=NOW, today=TODAY, **{**BRIEFED, "briefs": (brief(corrected_on=days(-1)),)})
    found = standing_of(facts, sees_money=False)
    assert found.stage is Stage.PLANNED
    assert Lack(Missing.CORRECTIONS) not in found.missing


def test_every_stage_and_step_of_a_brief_is_reached_by_some_case() -> None:
    assert {stage for _known, stage, _step in CASES.values()} >= {
        Stage.BRIEF_SENT,
        Stage.BRIEF_CORRECTED,
        Stage.BRIEF_APPROVED,
    }
    assert {step for _known, _stage, step in CASES.values()} >= {Next.AWAIT_APPROVAL, Next.MEND_BRIEF}
