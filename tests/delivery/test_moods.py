"""Finished pictures against the mood that was agreed, through the page."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from datetime import datetime

import numpy as np
import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from shoots.brief.models import Mood
from shoots.delivery import actions
from shoots.delivery.models import Picture
from shoots.members.models import Member, Studio
from shoots.mood import actions as moods
from shoots.outbox import actions as outbox
from shoots.shoot.models import Shoot
from tests import factories
from tests.mood.files import jpeg, of_array


@pytest.fixture
def now() -> datetime:
    """The real moment: jobs that are asked for through pages wait for the real clock."""
    return timezone.now()


@pytest.fixture
def shoot(studio: Studio) -> Shoot:
    return factories.make_shoot(studio, code="26-001")


@pytest.fixture
def storm(shoot: Shoot, owner: Member, now: datetime) -> Mood:
    mood = factories.make_mood(shoot, name="Storm", brightness=10)
    for seed in range(2):
        moods.add_reference(
            shoot=shoot,
            mood=mood,
            file=io.BytesIO(jpeg(seed=seed)),
            name="a.jpg",
            whose="CLIENT",
            within_s=9,
            by=owner,
            now=now,
        )
    return mood


@pytest.fixture
def deliver(shoot: Shoot, owner: Member, now: datetime) -> Callable[[str, bytes], Picture]:
    def deliver(name: str, data: bytes) -> Picture:
        picture = actions.add_picture(shoot=shoot, file=io.BytesIO(data), name=name, by=owner, now=now)
        outbox.drain(now=now)
        picture.refresh_from_db()
        return picture

    return deliver


ADDRESS = ("picture_moods", ["26-001"])


def verdicts(browser: Client) -> dict[str, object]:
    page = browser.get(reverse(ADDRESS[0], args=ADDRESS[1])).context["page"]
    return {judged.picture.name: judged.verdict for group in page.groups for judged in group.pictures}


def test_a_picture_is_measured_when_its_preview_is_made(deliver: Callable[[str, bytes], Picture]) -> None:
    picture = deliver("01.jpg", jpeg("bright"))
    assert picture.preview_key
    assert picture.found is not None and picture.found.tones.highlight_percent == 100.0


def test_a_dark_picture_fits_a_dark_mood_and_a_bright_one_is_said_to_be_brighter(
    browser: Client, shoot: Shoot, storm: Mood, deliver: Callable[[str, bytes], Picture]
) -> None:
    factories.make_shot(shoot, mood=storm)
    factories.make_mood(shoot, name="Summer", brightness=90)
    deliver("01-like-a-reference.jpg", jpeg(seed=7))
    deliver("1 too bright.jpg", jpeg("bright"))
    found = verdicts(browser)
    assert found["1 too bright.jpg"].sentence.startswith("Brighter than agreed")  # type: ignore[attr-defined]
    assert not found["1 too bright.jpg"].is_within  # type: ignore[attr-defined]
    assert any("asked for" in miss for miss in found["1 too bright.jpg"].details)  # type: ignore[attr-defined]
    dark = found["01-like-a-reference.jpg"]
    assert not any("Lightness" in miss or "shadow" in miss for miss in dark.details)  # type: ignore[attr-defined]
    page = browser.get(reverse(ADDRESS[0], args=ADDRESS[1])).content.decode()
    sentence_then_figures = r'class="ref-note">Brighter than agreed.*?<details class="ref-figures">'
    assert re.search(sentence_then_figures, page, re.DOTALL)


def test_a_colour_that_no_reference_has_is_named(
    browser: Client, storm: Mood, deliver: Callable[[str, bytes], Picture]
) -> None:
    data = np.full((60, 90, 3), 30, np.uint8)
    data[:, :30] = (200, 40, 160)
    deliver("x.jpg", bytes(of_array(data).jpegsave_buffer(Q=95)))
    verdict = verdicts(browser)["x.jpg"]  # the shoot's only mood counts for a picture that is tied to no shot
    assert [swatch.name for swatch in verdict.strange] in (["pink"], ["violet"])  # type: ignore[attr-defined]
    assert "colour that the mood doesn’t have" in verdict.sentence  # type: ignore[attr-defined]


def test_targets_set_by_hand_are_what_counts(
    browser: Client, storm: Mood, owner: Member, now: datetime, deliver: Callable[[str, bytes], Picture]
) -> None:
    deliver("x.jpg", jpeg("bright"))
    moods.set_targets(mood=storm, changes={"shadow_low": None}, seen_version=0, by=owner, now=now)
    verdict = verdicts(browser)["x.jpg"]
    assert verdict.details == ()  # type: ignore[attr-defined]


def test_pictures_of_an_older_release_are_measured_by_a_button(
    browser: Client, storm: Mood, deliver: Callable[[str, bytes], Picture], now: datetime
) -> None:
    picture = deliver("x.jpg", jpeg(seed=3))
    Picture.objects.update(measured=None)
    assert verdicts(browser)["x.jpg"] is None
    answer = browser.post(reverse("picture_measure", args=["26-001"]), follow=True)
    assert "1 picture is being measured" in answer.content.decode()
    outbox.drain(now=timezone.now())
    key = picture.preview_key
    picture.refresh_from_db()
    assert picture.found is not None
    assert picture.preview_key == key, "the small copy stays"


def test_without_moods_or_pictures_the_page_says_so(
    browser: Client, shoot: Shoot, deliver: Callable[[str, bytes], Picture]
) -> None:
    assert "no finished pictures yet" in browser.get(reverse(ADDRESS[0], args=ADDRESS[1])).content.decode()
    deliver("x.jpg", jpeg(seed=3))
    assert "Without a mood" in browser.get(reverse(ADDRESS[0], args=ADDRESS[1])).content.decode()


def test_a_transparent_picture_is_shown_though_not_measured(deliver: Callable[[str, bytes], Picture]) -> None:
    picture = deliver("x.png", bytes(of_array(np.zeros((20, 20, 4), np.uint8)).pngsave_buffer()))
    assert picture.preview_key and picture.found is None


def test_the_page_costs_the_same_for_many_pictures(
    browser: Client,
    shoot: Shoot,
    storm: Mood,
    deliver: Callable[[str, bytes], Picture],
    django_assert_num_queries: Callable[..., object],
    django_assert_max_num_queries: Callable[..., object],
) -> None:
    deliver("1.jpg", jpeg(seed=30))
    with django_assert_max_num_queries(30) as few:  # type: ignore[attr-defined]
        browser.get(reverse(ADDRESS[0], args=ADDRESS[1]))
    for seed in range(6):
        factories.make_shot(shoot, mood=storm)
        deliver(f"{seed}.jpg", jpeg(seed=40 + seed))
    with django_assert_num_queries(len(few.captured_queries)):
        browser.get(reverse(ADDRESS[0], args=ADDRESS[1]))
