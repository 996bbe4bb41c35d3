"""Celery's door: mail one invoice."""

from celery import shared_task
from django.utils import timezone

from shoots.invoices import actions


@shared_task(name="invoices.deliver")
def deliver(*, invoice_id: int, to: str, to_name: str = "", **_: object) -> None:
    actions.deliver_invoice(invoice_id=invoice_id, to=to, to_name=to_name, now=timezone.now())
