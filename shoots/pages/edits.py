"""Saving one record from its form, with the second of two windows told."""

from __future__ import annotations

from typing import Any, Protocol

from django.contrib import messages
from django.utils import timezone
from django.utils.translation import gettext as _

from shoots.members.access import MemberRequest
from shoots.members.actions import EditedMeanwhile
from shoots.pages.forms import RecordForm


class Edit(Protocol):
    """An action that writes a record's changes, such as `people.actions.edit`."""

    def __call__(self, *, record: Any, changes: Any, seen_version: int, by: Any, now: Any) -> None: ...


def saved(request: MemberRequest, form: RecordForm, edit: Edit) -> bool:
    """Save what a form changes; say whether it was, and tell the second of two windows."""
    if request.method != "POST" or not form.is_valid():
        return False
    record = form.instance
    try:
        edit(
            record=record,
            changes=form.changes,
            seen_version=form.seen_version,
            by=request.member,
            now=timezone.now(),
        )
    except EditedMeanwhile:
        record.refresh_from_db()  # the page around the form shows what is stored
        form.refuse_edited_meanwhile(current_version=record.version)
        return False
    messages.success(request, _("Saved."))
    return True
