"""What documents copy of the studio."""

from __future__ import annotations

from typing import Any

from shoots.members.models import Studio


def studio_card(studio: Studio) -> dict[str, Any]:
    """Return the studio's details as an issued document keeps them. No query."""
    return {
        "name": studio.name,
        "legal_name": studio.legal_name or studio.name,
        "address": studio.address,
        "country": studio.country,
        "email": studio.email,
        "phone": studio.phone,
        "company_number": studio.company_number,
        "vat_number": studio.vat_number,
        "locale": studio.locale,
        "time_zone": studio.time_zone,
        "account_name": studio.account_name or studio.legal_name or studio.name,
        "iban": studio.iban,
        "bic": studio.bic,
        "sort_code": studio.sort_code,
        "account_number": studio.account_number,
        "insurance": studio.insurance,
    }
