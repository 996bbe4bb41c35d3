"""Celery's doors: a version goes out, an approval is confirmed."""

from celery import shared_task
from django.utils import timezone

from shoots.agreement.actions import answers, sending


@shared_task(name="agreement.deliver")
def deliver(*, version_id: int, message: str = "", **_: object) -> None:
    sending.deliver_brief(version_id=version_id, message=message, now=timezone.now())


@shared_task(name="agreement.confirm")
def confirm(*, version_id: int, **_: object) -> None:
    answers.confirm_approval(version_id=version_id, now=timezone.now())
