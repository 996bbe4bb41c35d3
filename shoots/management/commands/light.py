"""Answer one question about light: a quantity, a setup to evaluate or a problem to solve; JSON in, JSON out."""

from __future__ import annotations

import json
import re
import sys
from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.utils.translation import gettext as _

from shoots.lighting.core.codec import WrongInput
from shoots.lighting.core.door import answer, listing
from shoots.lighting.core.meter import UnknownLight
from shoots.lighting.core.quantities import UnknownQuantity
from shoots.places.core.course import UnknownZone
from shoots.places.core.sun import NaiveTime
from shoots.values.units import OutOfRange

MOST_BYTES = 1_000_000


class NotJson(ValueError):
    """Raised when standard input holds no JSON object of the kind that is taken."""


class Command(BaseCommand):
    """``light < request.json``, ``light --lines < requests.jsonl`` or ``light --list``; see ``docs/light.md``."""

    help = "Answer one question about light, as JSON: a quantity, a whole setup to evaluate, or one to solve."
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Add the list, and the way to ask much at once."""
        either = parser.add_mutually_exclusive_group()
        either.add_argument(
            "--list", action="store_true", help="Print every quantity with its inputs, units and source, and examples."
        )
        either.add_argument(
            "--lines", action="store_true", help="Read one request a line and print one answer a line, in their order."
        )

    def handle(self, *args: Any, **options: Any) -> None:
        """Read, answer and print; what is wrong is printed as JSON too, and the exit status is 1."""
        if options["list"]:
            self._print(listing())
        elif options["lines"]:
            self._answer_lines()
        else:
            found, wrong = _answered(sys.stdin.buffer.read(MOST_BYTES + 1))
            self._print(found)
            if wrong:
                raise CommandError(wrong)

    def _answer_lines(self) -> None:
        asked = failed = 0
        # A line that is too long is read in pieces, of which each is refused.
        while raw := sys.stdin.buffer.readline(MOST_BYTES + 1):
            if not raw.strip():
                continue
            found, wrong = _answered(raw)
            asked, failed = asked + 1, failed + bool(wrong)
            self._print(found, indent=None)
            # Whoever writes the next question by this answer waits for it.
            self.stdout.flush()
        if failed:
            raise CommandError(
                _("%(failed)d of %(asked)d requests were not answered") % {"failed": failed, "asked": asked}
            )

    def _print(self, data: Any, indent: int | None = 2) -> None:
        self.stdout.write(json.dumps(data, ensure_ascii=False, indent=indent, allow_nan=False))


def _answered(raw: bytes) -> tuple[dict[str, Any], str]:
    """Return the answer to one request, and what is wrong with the request, which stands in the answer then."""
    try:
        return answer(_request(raw)), ""
    except (ValueError, UnknownQuantity) as error:
        wrong = described(error)
        return {"error": wrong}, wrong["message"]


def _request(raw: bytes) -> Any:
    """Return what standard input asks."""
    if len(raw) > MOST_BYTES:
        raise NotJson(_("at most %(count)d bytes are taken") % {"count": MOST_BYTES})
    if not raw.strip():
        raise NotJson(_("nothing on standard input; --list prints what can be asked, with examples"))
    try:
        return json.loads(raw.decode("utf-8-sig"), parse_constant=_no_number, object_pairs_hook=_object)
    except UnicodeDecodeError as error:
        raise NotJson(_("not UTF-8")) from error
    except RecursionError as error:
        raise NotJson(_("nested too deeply")) from error
    except json.JSONDecodeError as error:
        raise NotJson(
            _("%(why)s in line %(line)d, column %(column)d")
            % {"why": error.msg, "line": error.lineno, "column": error.colno}
        ) from error


def _no_number(name: str) -> float:
    raise NotJson(_("%(name)s is no number in JSON") % {"name": name})


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for name, value in pairs:
        if name in found:
            raise NotJson(_("%(name)s is given twice") % {"name": name})
        found[name] = value
    return found


def described(error: Exception) -> dict[str, Any]:
    """Return an error as data: its name, what it is about, and one sentence."""
    name = re.sub(r"(?<=[a-z])(?=[A-Z])", "_", type(error).__name__).lower()
    if isinstance(error, WrongInput):
        message = _("%(where)s: %(fault)s; expected %(expected)s") % {
            "where": error.path or _("the request"),
            "fault": error.fault.value,
            "expected": error.expected,
        }
        more = {"input": error.path, "fault": error.fault.value, "expected": error.expected}
    elif isinstance(error, OutOfRange):
        unit = "" if error.unit == "1" else f" {error.unit}"
        # JSON has no NaN: what is none was never given, such as the guide number of a flash.
        if error.value != error.value:
            says = _("%(name)s is missing; it must lie between %(low)g and %(high)g%(unit)s")
        elif error.value == error.low:
            says = _("%(name)s is %(value).6g%(unit)s; it must be more than that and at most %(high)g%(unit)s")
        else:
            says = _("%(name)s is %(value).6g%(unit)s; it must lie between %(low)g and %(high)g%(unit)s")
        message = says % {
            "name": error.name,
            "value": error.value,
            "low": error.low,
            "high": error.high,
            "unit": unit,
        }
        limits = {"value": error.value, "low": error.low, "high": error.high}
        more = {"input": error.name, "unit": error.unit}
        # Neither NaN nor an infinite number can be written in JSON.
        more |= {key: value if abs(value) < float("inf") else None for key, value in limits.items()}
    elif isinstance(error, UnknownQuantity):
        near = ", ".join(error.nearest) or _("see --list")
        message = _("there is no quantity “%(key)s”; nearest: %(near)s") % {"key": error.key, "near": near}
        more = {"quantity": error.key, "nearest": list(error.nearest)}
    elif isinstance(error, NaiveTime):
        message = _("%(at)s has no time zone; write the offset behind it, as in 2027-06-21T13:00+01:00") % {
            "at": error.args[0].isoformat()
        }
        more = {"value": error.args[0].isoformat()}
    elif isinstance(error, UnknownZone):
        message = _("there is no time zone “%(zone)s”; an IANA name such as Europe/London is expected") % {
            "zone": error.args[0]
        }
        more = {"value": error.args[0]}
    elif isinstance(error, UnknownLight):
        message = _(
            "a reading counts on the light “%(letter)s”, but priors have none of that letter (ambient is “”)"
        ) % {"letter": error.args[0]}
        more = {"letter": error.args[0]}
    else:
        said = str(error).strip()
        message = said if isinstance(error, NotJson) and said else f"{name.replace('_', ' ')}: {said}".rstrip(": ")
        more = {}
    return {"name": name, "message": message, **more}
