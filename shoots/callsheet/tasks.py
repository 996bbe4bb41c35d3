"""Celery's door: draw and mail one person's copy."""

from celery import shared_task
from django.utils import timezone

from shoots.callsheet import actions


@shared_task(name="callsheet.deliver")
def deliver(*, copy_id: int, **_: object) -> None:
    actions.deliver(copy_id=copy_id, now=timezone.now())
