"""Celery's doors: run one job, send one mail, and look for what was left."""

from celery import shared_task
from django.utils import timezone

from shoots.outbox import actions


@shared_task(name="outbox.run")
def run(*, message_id: int, **_: object) -> None:
    actions.run(message_id=message_id, now=timezone.now())


@shared_task(name="outbox.sweep")
def sweep(**_: object) -> None:
    now = timezone.now()
    for message_id in actions.due_ids(now=now):
        actions.run(message_id=message_id, now=timezone.now())


@shared_task(name="outbox.send_mail")
def send_mail(*, mail_id: int, **_: object) -> None:
    actions.send_mail(mail_id=mail_id, now=timezone.now())
