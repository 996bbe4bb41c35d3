"""Celery's doors: measure one reference, and the daily sweep."""

from celery import shared_task
from django.utils import timezone

from shoots.mood import actions


@shared_task(name="mood.measure")
def measure(*, reference_id: int, **_: object) -> None:
    actions.measure_reference(reference_id=reference_id)


@shared_task(name="mood.sweep")
def sweep(**_: object) -> None:
    actions.sweep(now=timezone.now())
