"""Versions of a brief as they went to the client, and what the client said isn't right with them."""

from __future__ import annotations

from typing import Self

from django.db import models
from django.db.models import Q

from shoots.members.models import OwnedQuerySet, StudioOwned


class BriefVersionQuerySet(OwnedQuerySet):
    def approvable(self) -> Self:
        """Neither approved nor replaced nor withdrawn: the client may still say yes."""
        return self.filter(approved_at=None, replaced_at=None, withdrawn_at=None)

    def approved(self) -> Self:
        return self.exclude(approved_at=None)


class BriefVersion(StudioOwned):
    """A brief with its moods and its shot list as it was sent. `document` holds it frozen; there are no drafts.

    Approval stores the SHA-256 of the very PDF that was sent. A newer version replaces one that nobody approved; an
    approved one stays what later changes are measured against until a newer one is approved.
    """

    shoot = models.ForeignKey("shoots.Shoot", on_delete=models.PROTECT, related_name="brief_versions", editable=False)
    number = models.PositiveSmallIntegerField(editable=False)
    sent_at = models.DateTimeField(editable=False)
    sent_to = models.CharField(max_length=254, blank=True, editable=False)
    opened_at = models.DateTimeField(null=True, editable=False)
    approved_at = models.DateTimeField(null=True, editable=False)
    approved_by = models.CharField(max_length=120, blank=True, editable=False)
    approved_from = models.CharField(max_length=60, blank=True, editable=False)
    approved_sha256 = models.CharField(max_length=64, blank=True, editable=False)
    approval_evidence = models.TextField(
        blank=True, editable=False, help_text="Filled when the studio recorded it for the client."
    )
    replaced_at = models.DateTimeField(null=True, editable=False)
    withdrawn_at = models.DateTimeField(null=True, editable=False)
    document = models.ForeignKey("shoots.IssuedDocument", on_delete=models.PROTECT, editable=False, related_name="+")
    approval_document = models.ForeignKey(
        "shoots.IssuedDocument", on_delete=models.PROTECT, null=True, editable=False, related_name="+"
    )
    link = models.OneToOneField("shoots.ClientLink", on_delete=models.PROTECT, editable=False, related_name="+")

    objects = BriefVersionQuerySet.as_manager()

    class Meta:
        ordering = ["-number", "-pk"]
        verbose_name = "brief"
        constraints = [
            models.UniqueConstraint(fields=["shoot", "number"], name="agreement_number_once"),
            models.CheckConstraint(
                condition=Q(approved_at=None) | Q(replaced_at=None, withdrawn_at=None), name="agreement_one_end"
            ),
        ]

    def __str__(self) -> str:
        return str(self.document)

    @property
    def is_approved(self) -> bool:
        return self.approved_at is not None


class Correction(StudioOwned):
    """What the client said isn't right with a version, typed by them or written down by the studio. Never changed."""

    brief = models.ForeignKey(BriefVersion, on_delete=models.PROTECT, related_name="corrections", editable=False)
    words = models.TextField()
    name = models.CharField(max_length=120)
    said_at = models.DateTimeField()
    said_from = models.CharField(max_length=60, blank=True)
    recorded_by = models.CharField(max_length=160, blank=True, help_text="Who wrote it down for the client.")
    words_sha256 = models.CharField(max_length=64, help_text="So that a double click says it once.")

    class Meta:
        ordering = ["said_at", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["brief", "words_sha256"], name="agreement_said_once"),
        ]

    def __str__(self) -> str:
        return self.words[:80]
