"""Celery's doors: a sent quote goes out, an accepted one is confirmed."""

from celery import shared_task
from django.utils import timezone

from shoots.quotes.actions import answers, sending


@shared_task(name="quotes.deliver")
def deliver(*, quote_id: int, message: str = "", **_: object) -> None:
    sending.deliver_quote(quote_id=quote_id, message=message, now=timezone.now())


@shared_task(name="quotes.confirm")
def confirm(*, quote_id: int, **_: object) -> None:
    answers.confirm_acceptance(quote_id=quote_id, now=timezone.now())
