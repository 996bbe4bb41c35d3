"""Display only: money, stops, shutter times, relative days, and where a shoot stands. Nothing is decided here."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from babel.dates import format_date
from babel.numbers import format_currency, format_decimal
from django import template
from django.template.defaultfilters import date as django_date
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from shoots.values.money import Money, format_unit_price

register = template.Library()
LOCALE = "en_GB"


@register.filter
def money(amount: Decimal | str | float | None, currency: str = "GBP") -> str:
    """£1,234.50 from an amount and a currency code, −£5.00 below nothing; a dash where there is no amount."""
    if amount is None or amount == "":
        return "–"
    return str(format_currency(Decimal(str(amount)), currency, locale=LOCALE)).replace("-", "−")


@register.filter
def unit_money(amount: Decimal | str | float | None, currency: str = "GBP") -> str:
    """£86.6675: the price of one with every decimal it has, so that it can be multiplied by hand."""
    if amount is None or amount == "":
        return "–"
    return format_unit_price(Money(Decimal(str(amount)), currency), LOCALE)


@register.filter
def quantity(amount: Decimal | str | float | None) -> str:
    """2 rather than 2.000, and 7.5 as it is."""
    if amount is None or amount == "":
        return "–"
    words = format_decimal(Decimal(str(amount)).normalize(), format="#,##0.####", locale=LOCALE)
    return str(words).replace("-", "−")


@register.filter
def day(value: date | datetime | str | None) -> str:
    """Tue 9 June 2026."""
    when = _as_date(value)
    return format_date(when, "EEE d MMMM y", locale=LOCALE) if when else "–"


@register.filter
def short_day(value: date | datetime | str | None) -> str:
    """9 Jun."""
    when = _as_date(value)
    return format_date(when, "d MMM", locale=LOCALE) if when else "–"


@register.filter
def from_today(value: date | datetime | str | None) -> str:
    """today, tomorrow, in 5 days, 3 days ago."""
    when = _as_date(value)
    if when is None:
        return "–"
    days = (when - timezone.localdate()).days  # noqa: TID251 - display is an edge
    if days == 0:
        return _("today")
    if days == 1:
        return _("tomorrow")
    if days == -1:
        return _("yesterday")
    if days > 0:
        return ngettext("in %(n)d day", "in %(n)d days", days) % {"n": days}
    return ngettext("%(n)d day ago", "%(n)d days ago", -days) % {"n": -days}


@register.filter
def moment(value: datetime | str | None, zone: str = "Europe/London") -> str:
    """Tue 9 Jun, 14:05 in the given time zone."""
    if not value:
        return "–"
    when = datetime.fromisoformat(value) if isinstance(value, str) else value
    return str(django_date(when.astimezone(ZoneInfo(zone)), "D j M Y, H:i"))


@register.filter
def clock(value: Any) -> str:
    """09:30 from a time or a moment that is already local."""
    if not value:
        return "–"
    if isinstance(value, str):
        return value[:5]
    return str(value.strftime("%H:%M"))


@register.filter
def f_number(value: float | None) -> str:
    """f/5.6."""
    return "–" if value is None else f"f/{value:.2g}" if value < 10 else f"f/{value:.0f}"


@register.filter
def shutter(value: float | None) -> str:
    """1/200 s or 2 s."""
    if value is None:
        return "–"
    return f"1/{1 / value:.0f} s" if value < 0.3 else f"{value:g} s"


@register.filter
def stops(value: float | None) -> str:
    """+1.3 stops, with a real minus sign."""
    if value is None:
        return "–"
    number = f"{value:+.1f}".replace("-", "−")
    return ngettext("%(n)s stop", "%(n)s stops", 1 if abs(value) == 1 else 2) % {"n": number}


@register.filter
def stops_span(low: float, high: float) -> str:
    """2 to 3 stops under, 1 stop under to 0.5 over, 0 to 1 stop over: a span against some exposure."""
    small, large = f"{round(abs(low), 1):g}", f"{round(abs(high), 1):g}"
    if high <= 0 and low < 0:
        return _("%(a)s to %(b)s stops under") % {"a": large, "b": small}
    if low < 0:
        return _("%(a)s under to %(b)s stops over") % {"a": small, "b": large}
    return _("%(a)s to %(b)s stops over") % {"a": small, "b": large}


@register.filter
def duration(minutes: int | None) -> str:
    """4 h 20 min from a number of minutes."""
    if minutes is None:
        return "–"
    hours, rest = divmod(int(minutes), 60)
    if not hours:
        return _("%(m)d min") % {"m": rest}
    return _("%(h)d h %(m)d min") % {"h": hours, "m": rest} if rest else _("%(h)d h") % {"h": hours}


@register.filter
def fraction(value: float | None) -> str:
    """1/128: a share of full power."""
    if value is None:
        return "–"
    return f"1/{1 / value:.0f}" if 0 < value < 1 else f"{value:g}"


@register.filter
def signed(value: float | None) -> str:
    """+109 or −78, with a real minus sign."""
    return "–" if value is None else f"{value:+.0f}".replace("-", "−")


COMPASS = (
    gettext_lazy("north"),
    gettext_lazy("north-east"),
    gettext_lazy("east"),
    gettext_lazy("south-east"),
    gettext_lazy("south"),
    gettext_lazy("south-west"),
    gettext_lazy("west"),
    gettext_lazy("north-west"),
)


@register.filter
def compass(bearing_deg: float | None) -> str:
    """north-east, 49°: a bearing from true north."""
    if bearing_deg is None:
        return "–"
    return f"{COMPASS[round(bearing_deg / 45.0) % 8]}, {bearing_deg % 360.0:.0f}°"


@register.filter
def lines(text: str | None) -> list[str]:
    """The lines of a text that have something in them."""
    return [line.strip() for line in (text or "").splitlines() if line.strip()]


@register.filter
def file_size(size: int | None) -> str:
    """3.4 MB."""
    if size is None:
        return "–"
    return f"{size / 1_000_000:.1f} MB" if size >= 100_000 else f"{max(1, size // 1000)} kB"


@register.filter
def get(mapping: Any, key: Any) -> Any:
    """An entry of a mapping by a key that stands in a variable."""
    return mapping.get(key) if mapping else None


@register.filter
def deed_words(deed: Any) -> str:
    """placed 7 lights: what a line of a shoot's history says was done."""
    from shoots.desk.queries.deed_words import deed_words as words_of

    return words_of(deed)


def _as_date(value: date | datetime | str | None) -> date | None:
    if not value:
        return None
    if isinstance(value, str):
        return date.fromisoformat(value[:10])
    return value.date() if isinstance(value, datetime) else value


@register.inclusion_tag("components/shot_sketch.html")
def shot_drawing(shot: Any) -> dict[str, Any]:
    """The drawing of a shot as a version of the brief froze it (`agreement.queries.paper`). No query."""
    from shoots.shotlist.core.sketch import Near, sketch

    drawn = sketch(Near(shot["framing"]), shot["first_shape"], shot["brightness"], shot["copy_space"])
    return {"sketch": drawn, "preview_url": "", "label": ""}


MAIN_NAV = [
    # (URL name, label, who sees it)
    ("home", gettext_lazy("Today"), "all"),
    ("shoot_list", gettext_lazy("Shoots"), "all"),
    ("people", gettext_lazy("People"), "prices"),
    ("place_list", gettext_lazy("Places"), "prices"),
    ("kit_list", gettext_lazy("Bag"), "prices"),
    ("rate_list", gettext_lazy("Rates"), "planners"),
    ("money", gettext_lazy("Money"), "prices"),
    ("licences", gettext_lazy("Licences"), "prices"),
    ("mail_list", gettext_lazy("Mail"), "prices"),
]
SHOOT_NAV = [
    ("shoot_detail", gettext_lazy("Overview"), "all"),
    ("call_of_shoot", gettext_lazy("Call"), "prices"),
    ("brief_detail", gettext_lazy("Brief"), "all"),
    ("mood_list", gettext_lazy("Mood"), "all"),
    ("shot_list", gettext_lazy("Shots"), "all"),
    ("setup_list", gettext_lazy("Light"), "all"),
    ("shoot_dates", gettext_lazy("Dates and people"), "all"),
    ("quote_list", gettext_lazy("Quote"), "prices"),
    ("callsheet_list", gettext_lazy("Call sheet"), "all"),
    ("picture_list", gettext_lazy("Pictures"), "all"),
    ("licence_list", gettext_lazy("Licence"), "prices"),
    ("invoice_list", gettext_lazy("Invoices"), "prices"),
]


def _also_of(name: str, path: str) -> bool:
    """Whether a page belongs to a section of a shoot though its address does not begin with the section's own."""
    inside = path.partition("/shoots/")[2].partition("/")[2]
    return (
        (name == "shoot_dates" and inside.startswith("days/"))
        or (name == "setup_list" and inside.startswith("care/"))
        or (name == "picture_list" and inside.startswith("deliveries/"))
        or (name == "call_of_shoot" and path.startswith("/calls/"))
    )


def _entries(context: Any, entries: list[tuple[str, Any, str]], *args: str) -> list[dict[str, Any]]:
    request = context["request"]
    member = request.member
    found = []
    best = ""
    for name, label, who in entries:
        if (who == "prices" and not member.sees_prices) or (who == "planners" and not member.plans):
            continue
        url = reverse(name, args=args)
        # The first page's address begins every other one, so it counts only as itself.
        here = request.path == url if url == "/" else request.path.startswith(url)
        if (here and len(url) > len(best)) or _also_of(name, request.path):
            best = url
        found.append({"url": url, "label": label})
    return [{**entry, "current": entry["url"] == best} for entry in found]


@register.inclusion_tag("components/nav.html", takes_context=True)
def main_nav(context: Any) -> dict[str, Any]:
    """The studio's sections that this member may open."""
    return {"entries": _entries(context, MAIN_NAV)}


@register.inclusion_tag("components/sections.html", takes_context=True)
def shoot_nav(context: Any, shoot: Any) -> dict[str, Any]:
    """The sections of one shoot that this member may open."""
    return {"entries": _entries(context, SHOOT_NAV, shoot.code)}


@register.inclusion_tag("components/road.html", takes_context=True)
def shoot_road(context: Any, shoot: Any) -> dict[str, Any]:
    """The sentence of where a shoot stands and the one button for what comes next; a fixed number of queries."""
    from shoots.desk.queries import road

    now = timezone.now()  # noqa: TID251 - display is an edge
    return {"road": road.road_of(shoot, member=context["request"].member, now=now), "shoot": shoot}


@register.inclusion_tag("components/day_fit.html", takes_context=True)
def day_fit(context: Any, page: Any) -> dict[str, Any]:
    """Whether the shots of a day fit (`page` is its plan's page), in one sentence; a fixed number of queries."""
    from shoots.coverage.queries import dayfit

    return {"fit": dayfit.day_fit_page(page), "shoot": page.day.shoot, "request": context["request"]}


@register.inclusion_tag("components/shots_standing.html")
def shots_standing(shoot: Any, cards: Any) -> dict[str, Any]:
    """How the shots (`cards` are all of them) stand against promises and days; a fixed number of queries."""
    from shoots.coverage.queries import dayfit

    return {"standing": dayfit.shots_standing(shoot, cards)}


@register.simple_tag(takes_context=True)
def shoot_roads(context: Any, shoots: Any) -> dict[int, Any]:
    """Where several shoots stand, by their keys, for lists; a fixed number of queries, however many there are."""
    from shoots.desk.queries import road

    now = timezone.now()  # noqa: TID251 - display is an edge
    return road.roads_of(shoots, member=context["request"].member, now=now)


@register.inclusion_tag("components/their_shoots.html", takes_context=True)
def client_shoots(context: Any, client: Any) -> dict[str, Any]:
    """The newest shoots of a client, and where each stands; a fixed number of queries."""
    from shoots.desk.queries.theirs import shoots_of_client

    now = timezone.now()  # noqa: TID251 - display is an edge
    return {
        "theirs": shoots_of_client(client, member=context["request"].member, now=now),
        "empty": _("None yet."),
    }


@register.inclusion_tag("components/their_shoots.html", takes_context=True)
def person_shoots(context: Any, person: Any) -> dict[str, Any]:
    """The newest shoots that somebody is held for, and where each stands; a fixed number of queries."""
    from shoots.desk.queries.theirs import shoots_of_person

    now = timezone.now()  # noqa: TID251 - display is an edge
    return {
        "theirs": shoots_of_person(person, member=context["request"].member, now=now),
        "empty": _("Held for none at the moment."),
    }
