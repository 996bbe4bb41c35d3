"""An issued document's PDF, for members who see prices. Clients and crew get theirs by links."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from shoots.documents import adapters
from shoots.documents.models import IssuedDocument
from shoots.members.access import MemberRequest, for_roles
from shoots.members.core import PRICES
from shoots.pages.answers import shown_pdf


@require_safe
@for_roles(PRICES)
def document_pdf(request: MemberRequest, pk: int) -> HttpResponse:
    """Show a document's PDF, or hand it over with `?save`; until it is made, say so and look again."""
    document = get_object_or_404(IssuedDocument.objects.of_studio(request.studio), pk=pk)
    if not document.is_rendered:
        return render(request, "documents/being_made.html", {"issued": document}, status=202)
    response = shown_pdf(
        file=adapters.read(document.storage_key), name=document.file_name, inline="save" not in request.GET
    )
    response["ETag"] = f'"{document.sha256}"'
    return response
