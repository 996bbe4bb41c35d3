"""What the trail says of a record."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.db import connection
from django.test.utils import CaptureQueriesContext

from shoots.members.models import Member, Studio
from shoots.trail import actions, queries
from tests import factories


def test_the_newest_comes_first_with_the_fields_by_their_labels(owner: Member, now: datetime) -> None:
    client = factories.make_client(owner.studio)
    actions.record(client, "added", by=owner, at=now)
    changes = {"payment_days": (None, 14), "gone_field": ("a", "b")}
    actions.record(client, "edited", by="Mara Quill", changes=changes, at=now + timedelta(hours=1))
    newest, oldest = queries.history_of(client, studio=owner.studio)
    assert (newest.who, newest.deed, newest.fields) == ("Mara Quill", "edited", ("days to pay", "gone field"))
    assert (oldest.who, oldest.deed, oldest.fields) == (owner.user.name, "added", ())


def test_another_record_of_the_same_number_is_not_mixed_in(owner: Member, other_studio: Studio, now: datetime) -> None:
    client = factories.make_client(owner.studio)
    person = factories.make_person(owner.studio, pk=client.pk)
    actions.record(person, "added", by=owner, at=now)
    assert queries.history_of(client, studio=owner.studio) == ()
    assert queries.history_of(person, studio=other_studio) == ()


def test_history_costs_one_query(owner: Member, now: datetime) -> None:
    client = factories.make_client(owner.studio)
    for n in range(20):
        actions.record(client, "edited", by=owner, at=now + timedelta(minutes=n))
    with CaptureQueriesContext(connection) as caught:
        assert len(queries.history_of(client, studio=owner.studio)) == 12
    assert len(caught) == 1
