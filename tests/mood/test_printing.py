"""The mood sheet's PDF: made once, stored by what it is made from, and made anew when that changes."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import timedelta

import pytest
from django.core.files.storage import default_storage
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from shoots.brief.models import Mood
from shoots.documents import adapters
from shoots.links.actions import token_of
from shoots.members.models import Member, Studio
from shoots.mood import actions
from shoots.mood.models import MoodPrint, MoodShare
from shoots.mood.queries.paper import sheet_paper
from shoots.shoot.models import Shoot
from tests import factories


@pytest.fixture
def renders(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Every rendering that is really done, which it still is."""
    done: list[str] = []
    real = adapters.pdf_of

    def counted(html: str) -> adapters.MadePdf:
        done.append(html)
        return real(html)

    monkeypatch.setattr(adapters, "pdf_of", counted)
    return done


@pytest.fixture
def shoot(studio: Studio) -> Shoot:
    return factories.make_shoot(studio, code="26-001")


@pytest.fixture
def mood(shoot: Shoot) -> Mood:
    return factories.make_mood(shoot, name="Storm", words="wet stone", brightness=10)


@pytest.fixture
def address(shoot: Shoot, mood: Mood, owner: Member) -> str:
    share: MoodShare = actions.share_sheet(shoot=shoot, email="", name="Mara", message="", by=owner, now=timezone.now())
    return reverse("client_mood_pdf", args=[token_of(share.link)])


def bytes_of(answer: object) -> bytes:
    streamed: Iterator[bytes] = answer.streaming_content  # type: ignore[attr-defined]
    return b"".join(streamed)


def files() -> list[str]:
    return default_storage.listdir("mood-sheets")[1]


def test_a_sheet_that_does_not_change_is_made_once_whoever_asks(
    browser: Client, address: str, renders: list[str]
) -> None:
    first = bytes_of(Client().get(address))
    assert first.startswith(b"%PDF") and len(renders) == 1
    for _again in range(3):
        assert bytes_of(Client().get(address)) == first
    assert bytes_of(browser.get(reverse("mood_sheet", args=["26-001"]))) == first
    assert len(renders) == 1 and len(files()) == 1


@pytest.mark.parametrize("what", ["words", "title", "studio", "new mood"])
def test_a_sheet_that_says_something_else_is_made_anew_and_the_old_file_goes(
    address: str, renders: list[str], shoot: Shoot, mood: Mood, what: str, django_capture_on_commit_callbacks: Callable
) -> None:
    first = bytes_of(Client().get(address))
    match what:
        case "words":
            Mood.objects.filter(pk=mood.pk).update(words="dry stone")
        case "title":
            Shoot.objects.filter(pk=shoot.pk).update(title="Another title")
        case "studio":
            Studio.objects.filter(pk=shoot.studio_id).update(name="Another studio")
        case "new mood":
            factories.make_mood(shoot, name="Summer", brightness=88)
    with django_capture_on_commit_callbacks(execute=True):
        second = bytes_of(Client().get(address))
    assert second != first and len(renders) == 2
    assert bytes_of(Client().get(address)) == second and len(renders) == 2
    assert files() == [MoodPrint.objects.get().storage_key.removeprefix("mood-sheets/")]


def test_another_day_alone_is_no_change(shoot: Shoot, mood: Mood, renders: list[str]) -> None:
    today = timezone.localdate()
    first = actions.printed_sheet(shoot=shoot, content=sheet_paper(shoot, on=today)).read()
    later = sheet_paper(shoot, on=today + timedelta(days=3))
    with actions.printed_sheet(shoot=shoot, content=later) as file:
        assert file.read() == first
    assert len(renders) == 1 and str(today.year) in renders[0]


def test_another_style_sheet_is_a_change(
    shoot: Shoot, mood: Mood, renders: list[str], monkeypatch: pytest.MonkeyPatch, tmp_path: object
) -> None:
    content = sheet_paper(shoot, on=timezone.localdate())
    actions.printed_sheet(shoot=shoot, content=content).close()
    other = tmp_path / "document.css"  # type: ignore[operator]
    other.write_text("body { color: black }")
    monkeypatch.setattr(adapters.finders, "find", lambda _name: str(other))
    actions.printed_sheet(shoot=shoot, content=content).close()
    assert len(renders) == 2


def test_a_stored_file_that_is_gone_is_made_again(address: str, renders: list[str]) -> None:
    first = bytes_of(Client().get(address))
    default_storage.delete(MoodPrint.objects.get().storage_key)
    assert bytes_of(Client().get(address))[:4] == first[:4] == b"%PDF"
    assert len(renders) == 2 and MoodPrint.objects.count() == 1


def test_a_sweep_leaves_the_sheet_and_takes_it_once_its_shoot_is_gone(address: str, shoot: Shoot, mood: Mood) -> None:
    bytes_of(Client().get(address))
    later = timezone.now() + timedelta(hours=2)
    assert actions.sweep(now=later) == 0 and len(files()) == 1
    MoodPrint.objects.all().delete()  # as it goes with its shoot
    assert actions.sweep(now=later) == 1 and files() == []


def test_another_shoot_s_sheet_is_its_own(browser: Client, studio: Studio, address: str, renders: list[str]) -> None:
    first = bytes_of(Client().get(address))
    other = factories.make_shoot(studio, code="26-002")
    factories.make_mood(other, name="Calm", brightness=50)
    assert bytes_of(browser.get(reverse("mood_sheet", args=["26-002"]))) != first
    assert bytes_of(Client().get(address)) == first and len(renders) == 2
