"""What a new studio fills in before its first job, until it is there."""

from __future__ import annotations

from dataclasses import dataclass

from django.urls import reverse
from django.utils.translation import gettext as _

from shoots.kit.models import Lamp
from shoots.members.models import Member
from shoots.quotes.models import Rate


@dataclass(frozen=True)
class FirstStep:
    """Something to fill in once, what it is for, and whether it is there."""

    words: str
    why: str
    url: str
    is_done: bool


def first_steps(member: Member) -> tuple[FirstStep, ...]:
    """Return the first steps of a studio in their order; none once all are done. Two queries; none for crew."""
    studio = member.studio
    if not member.plans:
        return ()
    rates, lamps = Rate.objects.of_studio(studio), Lamp.objects.of_studio(studio)
    steps = [
        FirstStep(
            _("What you charge"),
            _("a quote then writes half of itself"),
            reverse("rate_list"),
            rates.exists(),
        ),
        FirstStep(_("What is in the bag"), _("plans of light count with it"), reverse("kit_list"), lamps.exists()),
    ]
    if member.is_owner:
        has_bank = bool(studio.iban or studio.account_number)
        steps.insert(
            0,
            FirstStep(
                _("Your address and bank"),
                _("quotes and invoices carry them"),
                reverse("studio_settings"),
                bool(studio.address and has_bank),
            ),
        )
    return () if all(step.is_done for step in steps) else tuple(steps)
