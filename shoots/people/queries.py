"""What documents copy of a client."""

from __future__ import annotations

from typing import Any

from shoots.people.models import Client


def party_card(client: Client) -> dict[str, Any]:
    """Return a client's details as an issued document keeps them. No query."""
    return {
        "name": client.full_legal_name,
        "trading_name": client.name,
        "address": client.address,
        "country": client.country,
        "vat_number": client.vat_number,
        "company_number": client.company_number,
        "email": client.invoice_email,
    }
