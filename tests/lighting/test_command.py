"""``manage.py light`` as a script calls it: one JSON object in, one out, and what is wrong said by name."""

from __future__ import annotations

import io
import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from django.core.management import CommandError, call_command
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

ROOT = Path(__file__).resolve().parents[2]


class _Input:
    def __init__(self, raw: bytes) -> None:
        self.buffer = io.BytesIO(raw)


def _run(monkeypatch: pytest.MonkeyPatch, raw: bytes, *args: str) -> tuple[Any, str]:
    """Return what was printed, read as JSON, and the sentence of the error, if there was one."""
    monkeypatch.setattr(sys, "stdin", _Input(raw))
    out, wrong = io.StringIO(), ""
    try:
        call_command("light", *args, stdout=out)
    except CommandError as error:
        wrong = str(error)
    return json.loads(out.getvalue()), wrong


def test_a_request_through_a_real_process() -> None:
    """2.1: flash manual example: 32/4 is f/8."""
    request = {"quantity": "flash_f_number", "guide_number_m": 32, "distance_m": 4, "iso": 100, "power": 1}
    done = subprocess.run(
        [sys.executable, "manage.py", "light"],
        cwd=ROOT,
        input=json.dumps(request),
        capture_output=True,
        text=True,
        check=True,
    )
    assert json.loads(done.stdout)["value"] == 8.0
    wrong = subprocess.run(
        [sys.executable, "manage.py", "light"], cwd=ROOT, input="[", capture_output=True, text=True, check=False
    )
    assert wrong.returncode == 1
    assert "Traceback" not in wrong.stderr
    assert json.loads(wrong.stdout)["error"]["name"] == "not_json"


def test_many_requests_go_through_one_process_each_on_its_line(monkeypatch: pytest.MonkeyPatch) -> None:
    """2.1 and 2.4: flash manual: 32/4 is f/8, 45/8 is 5.625 m; what is wrong between them stops nothing."""
    flash = {"quantity": "flash_f_number", "guide_number_m": 32, "distance_m": 4, "iso": 100, "power": 1}
    reach = {"quantity": "flash_distance", "guide_number_m": 45, "f_number": 8, "iso": 100, "power": 1}
    lines = [json.dumps(flash), "", "{", json.dumps({"quantity": "nothing"}), json.dumps(reach)]
    monkeypatch.setattr(sys, "stdin", _Input("\n".join(lines).encode()))
    out = io.StringIO()
    with pytest.raises(CommandError, match="2 of 4"):
        call_command("light", "--lines", stdout=out)
    found = [json.loads(line) for line in out.getvalue().splitlines()]
    assert [one.get("value") for one in found] == [8.0, None, None, 5.625]
    assert [one["error"]["name"] for one in found[1:3]] == ["not_json", "unknown_quantity"]
    monkeypatch.setattr(sys, "stdin", _Input(b""))
    call_command("light", "--lines", stdout=out)


def test_the_list_says_how_to_ask(monkeypatch: pytest.MonkeyPatch) -> None:
    found, wrong = _run(monkeypatch, b"", "--list")
    assert not wrong
    assert len(found["quantities"]) > 170
    assert found["requests"]["examples"]
    assert _run(monkeypatch, json.dumps(found["requests"]["examples"][0]).encode())[0]["unit"] == "1"


@pytest.mark.parametrize(
    ("raw", "name", "says"),
    [
        (b"", "not_json", "--list"),
        (b"{", "not_json", "line 1"),
        (b"\xff\xfe\x00", "not_json", "UTF-8"),
        (b'{"quantity": "incident_ev", "illuminance_lx": NaN}', "not_json", "NaN"),
        (b'{"quantity": "incident_ev", "quantity": "x"}', "not_json", "twice"),
        (b"[" * 100_000, "not_json", "deep"),
        (b" " * 1_000_001, "not_json", "bytes"),
        (b"[]", "wrong_input", "object"),
        (b'{"quantity": "flash_number"}', "unknown_quantity", "flash_f_number"),
        (b'{"quantity": "incident_ev"}', "wrong_input", "illuminance_lx"),
        (b'{"quantity": "incident_ev", "lux": 3}', "wrong_input", "illuminance_lx, iso, meter_constant"),
        (b'{"quantity": "incident_ev", "illuminance_lx": -3}', "out_of_range", "illuminance_lx"),
        (b'{"quantity": "incident_ev", "illuminance_lx": 1' + b"0" * 400 + b"}", "out_of_range", "illuminance_lx"),
        (
            b'{"quantity": "sun_position", "at": "2027-06-21T12:00:00", "latitude_deg": 51, "longitude_deg": 0}',
            "naive_time",
            "2027-06-21T12:00:00 has no time zone",
        ),
        (
            b'{"quantity": "sun_day", "day": "2027-06-21", "zone": "BST", "latitude_deg": 51, "longitude_deg": 0}',
            "unknown_zone",
            "IANA",
        ),
        (
            b'{"evaluate": {"exposure": {"f_number": 8, "shutter_s": 1}, "lights": ['
            b'{"letter": "A", "part": "KEY", "lamp": {"energy_ws": 500}}]}}',
            "out_of_range",
            "evaluate.lights[0].lamp.guide_number_m is missing",
        ),
        (
            b'{"quantity": "flash_f_number", "guide_number_m": 45, "distance_m": 0, "iso": 100, "power": 1}',
            "out_of_range",
            "distance_m is 0 m; it must be more than that",
        ),
        (
            b'{"quantity": "refit", "priors": {}, "readings": [{"parts": [["A", 9]], "measured_lx_s": 9}]}',
            "unknown_light",
            "\u201cA\u201d",
        ),
        (b'{"evaluate": {"exposure": {"f_number": 8}}}', "wrong_input", "evaluate.exposure.shutter_s"),
    ],
)
def test_what_is_wrong_is_said_by_name(monkeypatch: pytest.MonkeyPatch, raw: bytes, name: str, says: str) -> None:
    found, wrong = _run(monkeypatch, raw)
    assert found["error"]["name"] == name
    assert found["error"]["message"] == wrong
    assert says in wrong


REQUESTS = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(),
    lambda inner: (
        st.lists(inner) | st.dictionaries(st.sampled_from(["quantity", "inputs", "evaluate", "solve", "x"]), inner)
    ),
).map(lambda one: json.dumps(one).encode())


def test_no_bytes_whatever_end_in_a_traceback(monkeypatch: pytest.MonkeyPatch) -> None:
    @settings(max_examples=80, deadline=None, suppress_health_check=list(HealthCheck))
    @given(st.binary() | st.text().map(str.encode) | REQUESTS)
    def check(raw: bytes) -> None:
        _run(monkeypatch, raw)

    check()
