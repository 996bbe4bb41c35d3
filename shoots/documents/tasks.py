"""Celery's door: make one document's PDF."""

from celery import shared_task
from django.utils import timezone

from shoots.documents import actions
from shoots.documents.models import IssuedDocument


@shared_task(name="documents.render")
def render(*, document_id: int, **_: object) -> None:
    document = IssuedDocument.objects.filter(pk=document_id).first()
    if document is not None:  # its shoot may have been deleted while it waited; then nobody wants it
        actions.ensure_rendered(document=document, now=timezone.now())
