"""Celery's door: make one picture's small copy."""

from celery import shared_task

from shoots.delivery import actions


@shared_task(name="delivery.make_preview")
def make_preview(*, picture_id: int, **_: object) -> None:
    actions.make_preview(picture_id=picture_id)
