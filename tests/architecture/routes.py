"""Every URL of the program with its view, and the table that fills the arguments of each from a studio's records.

A URL with arguments that the table does not know fails `test_every_url_has_a_rule`: add its line to `FILL` (and its
record to `world.py`), nothing else.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from django.urls import URLPattern, URLResolver, get_resolver, reverse

from shoots.members.access import Rule
from tests.architecture.world import World

Fill = Callable[[World], dict[str, Any]]


@dataclass(frozen=True)
class Route:
    """One URL: its name, its view, and the names of its arguments."""

    name: str
    view: Callable[..., Any]
    arguments: frozenset[str]

    @property
    def rule(self) -> Rule | None:
        return getattr(self.view, "access_rule", None)

    @property
    def is_of_a_shoot(self) -> bool:
        return "code" in self.arguments

    def address(self, world: World) -> str:
        return reverse(self.name, kwargs=FILL[self.name](world) if self.arguments else None)


def routes() -> list[Route]:
    """Return every named URL of the program."""
    return list(_walk(get_resolver().url_patterns, frozenset()))


def _walk(patterns: list[URLPattern | URLResolver], outer: frozenset[str]) -> Iterator[Route]:
    for pattern in patterns:
        arguments = outer | frozenset(pattern.pattern.regex.groupindex)
        if isinstance(pattern, URLResolver):
            yield from _walk(pattern.url_patterns, arguments)
        else:
            yield Route(pattern.name or f"(no name) {pattern.pattern}", pattern.callback, arguments)


def _pk(record: str) -> Fill:
    return lambda world: {"pk": getattr(world, record).pk}


def _shoot(world: World) -> dict[str, Any]:
    return {"code": world.shoot.code}


def _in_shoot(record: str, **more: Any) -> Fill:
    return lambda world: {"code": world.shoot.code, "pk": getattr(world, record).pk, **more}


def _part_of(record: str, **parts: str) -> Fill:
    """Name a record of a shoot and something that is part of it."""
    return lambda world: {
        "code": world.shoot.code,
        "pk": getattr(world, record).pk,
        **{name: getattr(world, part).pk for name, part in parts.items()},
    }


def _with_shoot(**more: Any) -> Fill:
    return lambda world: {"code": world.shoot.code, **more}


def _token(of: str, **more: str) -> Fill:
    return lambda world: {"token": world.tokens[of], **{name: getattr(world, r).pk for name, r in more.items()}}


#: The arguments of every URL that has some, by its name.
FILL: dict[str, Fill] = {
    # accounts
    "account_reset_password_from_key": lambda world: {"uidb36": "1", "key": "set-password"},
    "studio_choose": lambda world: {"pk": world.studio.pk},
    "member_role": _pk("member"),
    "member_remove": _pk("member"),
    "invitation_withdraw": _pk("invitation"),
    "invitation_accept": _token("invitation"),
    # people, places, the bag
    **dict.fromkeys(("person_detail", "person_edit", "person_put_away"), _pk("person")),
    **dict.fromkeys(("client_detail", "client_edit", "client_put_away", "contact_new"), _pk("client")),
    **dict.fromkeys(("contact_edit", "contact_remove"), _pk("contact")),
    **dict.fromkeys(("place_detail", "place_edit", "place_permission", "place_put_away", "spot_new"), _pk("place")),
    **dict.fromkeys(("spot_edit", "spot_remove"), _pk("spot")),
    "kit_new": lambda world: {"kind": "lights"},
    "kit_starter": lambda world: {"kind": "lights", "key": "BATTERY_300"},
    **dict.fromkeys(("kit_edit", "kit_put_away"), lambda world: {"kind": "lights", "pk": world.lamp.pk}),
    # the shoot
    **dict.fromkeys(
        [
            "shoot_detail",
            "shoot_edit",
            "shoot_put_away",
            "shoot_take_back",
            "shoot_delete",
            "shoot_history",
            "shoot_dates",
            "day_new",
            "fact_new",
            "brief_detail",
            "brief_edit",
            "brief_send",
            "brief_preview",
            "mood_new",
            "mood_list",
            "mood_sheet",
            "mood_share",
            "reference_add",
            "shot_list",
            "shot_add",
            "shot_order",
            "shot_pick",
            "shot_many",
            "shot_changed",
            "shot_undo",
            "shot_remove_many",
            "shot_table",
            "shot_parts",
            "products_take_over",
            "template_list",
            "template_new",
            "quote_list",
            "quote_start",
            "picture_list",
            "picture_moods",
            "picture_measure",
            "picture_add",
            "delivery_new",
            "licence_list",
            "usage_edit",
            "invoice_list",
            "invoice_draft",
            "setup_list",
            "setup_new",
            "setup_compare",
            "care_detail",
            "batteries_pack",
            "hands_add",
            "callsheet_list",
            "call_of_shoot",
        ],
        _shoot,
    ),
    "day_edit": _in_shoot("day"),
    "day_step": _in_shoot("day", step="confirm"),
    "booking_new": _with_shoot(kind="crew"),
    "booking_edit": _in_shoot("booking"),
    "booking_step": _in_shoot("booking", step="confirm"),
    "fact_strike": _in_shoot("fact"),
    **dict.fromkeys(("mood_edit", "mood_remove", "mood_move"), _in_shoot("mood")),
    # moods from pictures
    **dict.fromkeys(("mood_detail", "mood_targets", "mood_targets_clear"), _in_shoot("mood")),
    **dict.fromkeys(
        ("reference_edit", "reference_preview", "reference_move", "reference_remove"), _in_shoot("reference")
    ),
    "mood_share_close": _in_shoot("mood_share"),
    **dict.fromkeys(("client_mood", "client_mood_pdf"), _token("mood_share")),
    "client_reference_preview": _token("mood_share", pk="reference"),
    **dict.fromkeys(("shot_edit", "shot_duplicate", "shot_remove", "shot_got", "shot_move"), _in_shoot("shot")),
    **dict.fromkeys(("brief_version", "brief_answer", "brief_withdraw"), _in_shoot("brief_version")),
    **dict.fromkeys(("client_brief", "client_brief_approve", "client_brief_correct"), _token("brief")),
    "client_brief_paper": lambda world: {"token": world.tokens["brief"], "kind": "brief"},
    # what was promised
    **dict.fromkeys(("coverage_detail", "promise_new", "promise_leave_out", "missing_take_up"), _shoot),
    **dict.fromkeys(("promise_edit", "promise_take_back"), _in_shoot("promise")),
    "shot_export": _with_shoot(kind="csv"),
    **dict.fromkeys(("template_edit", "template_remove", "template_apply"), _in_shoot("shot_template")),
    "part_new": _with_shoot(kind="product"),
    **dict.fromkeys(("part_edit", "part_remove"), _in_shoot("product", kind="product")),
    "sample_new": _in_shoot("product"),
    **dict.fromkeys(("sample_edit", "sample_arrived", "sample_remove"), _in_shoot("sample")),
    # light
    **dict.fromkeys(
        (
            "setup_detail",
            "setup_edit",
            "setup_wishes",
            "setup_found",
            "setup_duplicate",
            "setup_remove",
            "setup_move",
            "lamp_new",
            "reading_new",
            "panel_new",
            "setup_keep",
            "setup_under",
        ),
        _in_shoot("setup"),
    ),
    **dict.fromkeys(("lamp_edit", "lamp_place", "lamp_remove"), _part_of("setup", lamp_pk="placed_lamp")),
    **dict.fromkeys(("panel_edit", "panel_place", "panel_remove"), _part_of("setup", panel_pk="placed_panel")),
    **dict.fromkeys(("start_edit", "start_remove"), _pk("light_start")),
    "factor_withdraw": _pk("light_factor"),
    "reading_remove": _part_of("setup", reading_pk="reading"),
    # the call
    **dict.fromkeys(("call_detail", "call_save", "call_take_up", "call_delete", "draft_accept_plain"), _pk("call")),
    "draft_edit": lambda world: {"pk": world.call.pk, "draft_pk": world.draft.pk},
    "draft_step": lambda world: {"pk": world.call.pk, "draft_pk": world.draft.pk, "step": "dismiss"},
    # the day
    **dict.fromkeys(
        (
            "day_plan",
            "plan_change",
            "plan_draft",
            "plan_times",
            "plan_calls",
            "block_add",
            "callsheet_preview",
            "callsheet_issue",
        ),
        _in_shoot("day"),
    ),
    **dict.fromkeys(("block_edit", "block_remove"), _part_of("day", block="block")),
    "copy_confirm": _in_shoot("copy"),
    **dict.fromkeys(("client_callsheet", "client_callsheet_pdf", "client_callsheet_confirm"), _token("copy")),
    # quotes, licences, invoices, documents
    **dict.fromkeys(("rate_edit", "rate_move", "rate_away"), _pk("rate")),
    **dict.fromkeys(
        [
            "quote_preview",
            "quote_send",
            "quote_lines",
            "quote_line_new",
            "quote_add",
            "quote_suggestion",
            "quote_edit",
            "quote_tax",
            "quote_licence_fee",
            "quote_discard",
        ],
        _in_shoot("quote_draft"),
    ),
    "quote_line_edit": _part_of("quote_draft", line_pk="quote_line"),
    **dict.fromkeys(("quote_detail", "quote_answer", "quote_close_link"), _in_shoot("quote")),
    **dict.fromkeys(("client_quote", "client_quote_accept", "client_quote_decline"), _token("quote")),
    "client_quote_paper": lambda world: {"token": world.tokens["quote"], "kind": "quote"},
    "licence_end": _in_shoot("licence"),
    **dict.fromkeys(("invoice_detail", "invoice_issue", "invoice_discard"), _in_shoot("invoice_draft")),
    **dict.fromkeys(("invoice_send", "invoice_payment", "invoice_credit"), _in_shoot("invoice")),
    "document_pdf": _pk("document"),
    # mail
    "mail_detail": _pk("mail"),
    "job_again": _pk("job"),
    # pictures
    **dict.fromkeys(("picture_preview", "picture_file", "picture_tie", "picture_withdraw"), _in_shoot("picture")),
    **dict.fromkeys(("delivery_detail", "delivery_close"), _in_shoot("delivery")),
    **dict.fromkeys(("client_delivery", "client_archive"), _token("delivery")),
    **dict.fromkeys(("client_preview", "client_picture"), _token("delivery", pk="picture")),
}
