"""Many at once: one yes counts, one version is made, one correction is kept."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor

import pytest
from django.db import connection

from shoots.agreement.actions import answers, sending
from shoots.agreement.models import BriefVersion, Correction
from shoots.agreement.queries.paper import agreed_now, print_of
from shoots.outbox.models import Message
from shoots.trail.models import Entry
from tests import factories
from tests.agreement.factories import make_sent, make_shoot, reload

pytestmark = pytest.mark.django_db(transaction=True)
NOW = factories.NOW
AT_ONCE = 12


def at_once(deed: Callable[[int], object], *refusals: type[Exception]) -> int:
    """Do something in many threads and return how many were not refused; any other fault is raised."""

    def one(number: int) -> bool:
        try:
            return deed(number) is not False
        except refusals:
            return False
        finally:
            connection.close()

    with ThreadPoolExecutor(AT_ONCE) as pool:
        return sum(pool.map(one, range(AT_ONCE)))


def test_of_many_yeses_at_once_one_counts() -> None:
    version = make_sent()
    won = at_once(
        lambda n: answers.approve_brief(version=version, name=f"Name {n}", now=NOW), answers.BriefNoLongerOpen
    )
    assert won == 1
    entry = Entry.objects.get(deed="approved")
    assert reload(version).approved_by == entry.actor_name
    assert Message.objects.filter(task="agreement.confirm").count() == 1


def test_of_many_clicks_on_send_at_once_one_makes_a_version() -> None:
    shoot = make_shoot()
    seen = print_of(agreed_now(shoot))
    won = at_once(
        lambda n: sending.send_brief(shoot=shoot, email="", seen_number=0, seen_print=seen, by=None, now=NOW),
        sending.BriefAlreadySent,
    )
    assert won == 1
    assert BriefVersion.objects.get().replaced_at is None


def test_the_same_words_sent_many_times_at_once_are_kept_once() -> None:
    version = make_sent()
    won = at_once(lambda n: answers.correct_brief(version=version, name="Mara", words="No dogs", now=NOW))
    assert won == 1
    assert Correction.objects.count() == 1
