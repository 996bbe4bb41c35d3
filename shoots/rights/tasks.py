"""Celery's door: a licence that has come into force goes to the client."""

from celery import shared_task
from django.utils import timezone

from shoots.rights import actions


@shared_task(name="rights.deliver")
def deliver(*, licence_id: int, **_: object) -> None:
    actions.deliver_licence(licence_id=licence_id, now=timezone.now())
