"""Celery's door: look for reminders that ought to exist."""

from celery import shared_task
from django.utils import timezone

from shoots.desk import actions


@shared_task(name="desk.remind")
def remind(**_: object) -> None:
    actions.sweep(now=timezone.now())
