"""Pictures and deliveries, through the pages."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Callable
from datetime import datetime, timedelta

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from shoots.delivery import actions
from shoots.delivery.models import Delivery, Fetch, Picture
from shoots.links.actions import token_of
from shoots.members.models import Member, Studio
from shoots.outbox import actions as outbox
from shoots.outbox.models import Mail
from shoots.shoot.models import Shoot
from tests import factories
from tests.delivery.pictures import picture_file


@pytest.fixture
def now() -> datetime:
    """The real moment: links are opened through pages, which read the real clock."""
    return timezone.now()


@pytest.fixture
def shoot(studio: Studio) -> Shoot:
    client = factories.make_client(studio)
    shoot = factories.make_shoot(studio, client=client, contact=factories.make_contact(client))
    for _ in range(3):
        factories.make_shot(shoot)
    return shoot


@pytest.fixture
def picture(shoot: Shoot, owner: Member, now: datetime) -> Picture:
    return actions.add_picture(shoot=shoot, file=picture_file(), name="03-rim.jpg", by=owner, now=now)


def upload(name: str, data: bytes | None = None, **made: int) -> SimpleUploadedFile:
    return SimpleUploadedFile(name, picture_file(name, **made).getvalue() if data is None else data)


def test_pictures_are_tied_to_the_shot_that_their_name_begins_with(browser: Client, shoot: Shoot) -> None:
    files = [upload("02-a.jpg"), upload("3 b.png"), upload("cover.tif", shade=20)]
    answer = browser.post(reverse("picture_add", args=[shoot.code]), {"files": files}, follow=True)
    assert "3 pictures were added" in answer.content.decode()
    shots = list(shoot.shots.order_by("position"))
    assert {(p.name, p.shot) for p in shoot.pictures.all()} == {
        ("02-a.jpg", shots[1]),
        ("3 b.png", shots[2]),
        ("cover.tif", None),
    }
    assert {p.format for p in shoot.pictures.all()} == {"JPEG", "PNG", "TIFF"}


@pytest.mark.parametrize(
    ("name", "data", "says"),
    [
        ("notes.jpg", b"these are words", "is not a JPEG, PNG or TIFF"),
        ("cut.jpg", picture_file(width=900, height=900).getvalue()[:1500], "is not a JPEG, PNG or TIFF"),
        ("drawing.svg", b"<svg xmlns='http://www.w3.org/2000/svg'/>", "is not a JPEG, PNG or TIFF"),
        ("empty.png", b"\x89PNG\r\n\x1a\n", "is not a JPEG, PNG or TIFF"),
    ],
)
def test_what_is_no_picture_is_refused_and_the_rest_kept(
    browser: Client, shoot: Shoot, name: str, data: bytes, says: str
) -> None:
    answer = browser.post(
        reverse("picture_add", args=[shoot.code]), {"files": [upload(name, data), upload("01-good.jpg")]}, follow=True
    )
    page = answer.content.decode()
    assert f"{name} {says}" in page
    assert [p.name for p in shoot.pictures.all()] == ["01-good.jpg"]


def test_a_picture_that_claims_to_be_huge_is_refused_by_its_header(browser: Client, shoot: Shoot) -> None:
    small = bytearray(picture_file("x.png", width=8, height=8).getvalue())
    start = small.index(b"IHDR") + 4
    small[start : start + 8] = (30_000).to_bytes(4, "big") * 2
    answer = browser.post(
        reverse("picture_add", args=[shoot.code]), {"files": [upload("x.png", bytes(small))]}, follow=True
    )
    assert "x.png" in answer.content.decode()
    assert not shoot.pictures.exists()


def test_no_file_chosen_is_an_error_by_the_field(browser: Client, shoot: Shoot) -> None:
    answer = browser.post(reverse("picture_add", args=[shoot.code]), {})
    assert answer.status_code == 422
    assert "This field is required" in answer.content.decode()


def test_the_same_file_twice_is_kept_once(browser: Client, shoot: Shoot, picture: Picture) -> None:
    answer = browser.post(reverse("picture_add", args=[shoot.code]), {"files": [upload("again.jpg")]}, follow=True)
    assert "is here already" in answer.content.decode()
    assert shoot.pictures.count() == 1


def test_a_picture_taken_out_may_come_again(browser: Client, shoot: Shoot, picture: Picture) -> None:
    browser.post(reverse("picture_withdraw", args=[shoot.code, picture.pk]))
    assert (
        "03-rim.jpg" not in browser.get(reverse("picture_list", args=[shoot.code])).content.decode().split("notices")[0]
    )
    browser.post(reverse("picture_add", args=[shoot.code]), {"files": [upload("03-rim.jpg")]})
    assert shoot.pictures.filter(withdrawn_at=None).count() == 1


def test_the_preview_is_made_by_a_job_and_shown(browser: Client, shoot: Shoot, picture: Picture, now: datetime) -> None:
    address = reverse("picture_preview", args=[shoot.code, picture.pk])
    assert browser.get(address).status_code == 404
    outbox.drain(now=now)
    answer = browser.get(address)
    assert answer["Content-Type"] == "image/jpeg"
    assert b"".join(answer.streaming_content).startswith(b"\xff\xd8\xff")


def test_making_the_preview_twice_keeps_the_first(picture: Picture, now: datetime) -> None:
    outbox.drain(now=now)
    first = Picture.objects.get(pk=picture.pk).preview_key
    actions.make_preview(picture_id=picture.pk)
    assert Picture.objects.get(pk=picture.pk).preview_key == first


def test_tying_and_untying_a_picture(browser: Client, shoot: Shoot, picture: Picture) -> None:
    first = shoot.shots.order_by("position").first()
    assert first is not None
    browser.post(reverse("picture_tie", args=[shoot.code, picture.pk]), {"shot": first.pk})
    picture.refresh_from_db()
    assert picture.shot == first
    browser.post(reverse("picture_tie", args=[shoot.code, picture.pk]), {"shot": ""})
    picture.refresh_from_db()
    assert picture.shot is None


def test_a_shot_of_another_shoot_is_a_404(browser: Client, shoot: Shoot, picture: Picture) -> None:
    stranger = factories.make_shot(factories.make_shoot(shoot.studio))
    assert browser.post(reverse("picture_tie", args=[shoot.code, picture.pk]), {"shot": stranger.pk}).status_code == 404


@pytest.fixture
def delivery(shoot: Shoot, picture: Picture, owner: Member, now: datetime) -> Delivery:
    second = actions.add_picture(
        shoot=shoot, file=picture_file("b.jpg", shade=10), name="03-rim.jpg", by=owner, now=now
    )
    sent = actions.send_delivery(
        shoot=shoot,
        title="Finals",
        message="All twelve.",
        pictures=[picture, second],
        to="mara@example.com",
        to_name="Mara",
        by=owner,
        now=now,
    )
    assert sent.link is not None
    return sent


def client_address(name: str, delivery: Delivery, *more: int) -> str:
    assert delivery.link is not None
    return reverse(name, args=[token_of(delivery.link), *more])


def test_sending_mails_a_link_that_opens(delivery: Delivery, now: datetime) -> None:
    outbox.drain(now=now)
    mail = Mail.objects.get(key=f"delivery:{delivery.pk}")
    assert mail.sent_at is not None
    assert "{{token:" in mail.text, "no row holds a token"
    page = Client().get(client_address("client_delivery", delivery)).content.decode()
    assert "All twelve." in page
    assert page.count("03-rim.jpg") >= 2


def test_each_download_is_on_record_with_its_time(delivery: Delivery, browser: Client) -> None:
    picture = delivery.pictures.first()
    assert picture is not None
    answer = Client().get(client_address("client_picture", delivery, picture.pk))
    assert answer["Content-Disposition"] == 'attachment; filename="03-rim.jpg"'
    assert b"".join(answer.streaming_content)[:3] == b"\xff\xd8\xff"
    assert Fetch.objects.get().picture == picture
    page = browser.get(reverse("delivery_detail", args=[delivery.shoot.code, delivery.pk])).content.decode()
    assert len(re.findall(r">fetched<", page)) == 1
    assert len(re.findall(r">not fetched<", page)) == 2  # the other picture, and all together


def test_a_head_request_is_no_download(delivery: Delivery) -> None:
    picture = delivery.pictures.first()
    assert picture is not None
    Client().head(client_address("client_picture", delivery, picture.pk))
    assert not Fetch.objects.exists()


def test_the_archive_holds_every_file_under_a_name_of_its_own(delivery: Delivery) -> None:
    answer = Client().get(client_address("client_archive", delivery))
    packed = zipfile.ZipFile(io.BytesIO(b"".join(answer.streaming_content)))
    assert packed.namelist() == ["03-rim.jpg", "03-rim (2).jpg"]
    assert packed.testzip() is None
    assert Fetch.objects.get().picture is None


def test_a_withdrawn_picture_is_gone_from_the_link(delivery: Delivery, owner: Member, now: datetime) -> None:
    picture = delivery.pictures.first()
    assert picture is not None
    actions.withdraw_picture(picture=picture, by=owner, now=now)
    assert Client().get(client_address("client_picture", delivery, picture.pk)).status_code == 404


def test_a_closed_link_is_a_404(delivery: Delivery, browser: Client) -> None:
    browser.post(reverse("delivery_close", args=[delivery.shoot.code, delivery.pk]))
    assert Client().get(client_address("client_delivery", delivery)).status_code == 404


def test_a_link_that_ran_out_is_a_404(delivery: Delivery, now: datetime) -> None:
    assert delivery.link is not None
    delivery.link.expires_at = now - timedelta(days=1)
    delivery.link.save()
    assert Client().get(client_address("client_delivery", delivery)).status_code == 404


def test_a_delivery_without_a_picture_keeps_what_was_typed(browser: Client, shoot: Shoot, picture: Picture) -> None:
    answer = browser.post(
        reverse("delivery_new", args=[shoot.code]),
        {"title": "Finals one", "to": "mara@example.com", "message": "Dear M"},
    )
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "Choose at least one picture" in page
    assert "Finals one" in page and "Dear M" in page
    assert not Delivery.objects.exists()


def test_a_delivery_through_the_page(browser: Client, shoot: Shoot, picture: Picture) -> None:
    answer = browser.post(
        reverse("delivery_new", args=[shoot.code]),
        {"title": "Finals", "to": "mara@example.com", "to_name": "Mara", "pictures": [picture.pk]},
        follow=True,
    )
    assert "The link is on its way to mara@example.com" in answer.content.decode()


def test_crew_look_but_do_not_change(
    crew: Member, signed_in: Callable[[Member], Client], shoot: Shoot, picture: Picture
) -> None:
    person = factories.make_person(shoot.studio, email=crew.user.email)
    factories.make_booking(shoot, person=person)
    theirs = signed_in(crew)
    assert theirs.get(reverse("picture_list", args=[shoot.code])).status_code == 200
    assert theirs.post(reverse("picture_withdraw", args=[shoot.code, picture.pk])).status_code == 403


def test_the_page_costs_the_same_for_many_pictures(
    browser: Client, shoot: Shoot, owner: Member, now: datetime, django_assert_max_num_queries: Callable[..., object]
) -> None:
    for n in range(6):
        actions.add_picture(shoot=shoot, file=picture_file("a.jpg", width=10 + n), name=f"{n}.jpg", by=owner, now=now)
    with django_assert_max_num_queries(30) as few:  # type: ignore[attr-defined]
        browser.get(reverse("picture_list", args=[shoot.code]))
    before = len(few.captured_queries)
    for n in range(6, 18):
        factories.make_shot(shoot)
        actions.add_picture(shoot=shoot, file=picture_file("a.jpg", width=10 + n), name=f"{n}.jpg", by=owner, now=now)
    with django_assert_max_num_queries(before):
        browser.get(reverse("picture_list", args=[shoot.code]))
