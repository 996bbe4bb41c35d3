"""What the pages of finished pictures need."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from django.db.models import Count, Max, Prefetch

from shoots.delivery.models import Delivery, Picture
from shoots.mood.queries import pages as moods
from shoots.shoot.models import Shoot
from shoots.shotlist.models import Shot


@dataclass(frozen=True)
class ShotRow:
    """A planned shot with the finished pictures that it has, against how many were planned."""

    number: int
    shot: Shot
    pictures: tuple[Picture, ...]

    @property
    def missing(self) -> int:
        return max(0, self.shot.finals - len(self.pictures))


@dataclass(frozen=True)
class PicturesPage:
    """The pictures of a shoot by shot, those without one, and the deliveries so far."""

    rows: tuple[ShotRow, ...]
    loose: tuple[Picture, ...]
    deliveries: tuple[Delivery, ...]
    picture_count: int
    planned_count: int
    missing_count: int


def pictures_page(shoot: Shoot) -> PicturesPage:
    """Return everything that the pictures page shows, in three queries whatever its size."""
    pictures = list(Picture.objects.filter(shoot=shoot, withdrawn_at=None).order_by("name", "pk"))
    by_shot: dict[int | None, list[Picture]] = {}
    for picture in pictures:
        by_shot.setdefault(picture.shot_id, []).append(picture)
    rows = tuple(
        ShotRow(number, shot, tuple(by_shot.get(shot.pk, ())))
        for number, shot in enumerate(Shot.objects.filter(shoot=shoot).order_by("position", "pk"), 1)
    )
    deliveries = tuple(
        Delivery.objects.filter(shoot=shoot)
        .select_related("link")
        .annotate(
            picture_count=Count("pictures", distinct=True),
            fetch_count=Count("fetches", distinct=True),
            last_fetch_at=Max("fetches__at"),
        )
        .order_by("-created_at")
    )
    return PicturesPage(
        rows,
        tuple(by_shot.get(None, ())),
        deliveries,
        len(pictures),
        sum(row.shot.finals for row in rows),
        sum(row.missing for row in rows),
    )


@dataclass(frozen=True)
class FetchedPicture:
    """A delivered picture with when the client first fetched it, alone or with all the others."""

    picture: Picture
    first_fetched_at: datetime | None
    times: int


@dataclass(frozen=True)
class DeliveryPage:
    """One delivery with what was fetched of it."""

    delivery: Delivery
    pictures: tuple[FetchedPicture, ...]
    archive_times: tuple[datetime, ...]


def delivery_page(delivery: Delivery) -> DeliveryPage:
    """Return a delivery's pictures and fetches in two queries."""
    fetches = list(delivery.fetches.order_by("at"))
    whole = tuple(fetch.at for fetch in fetches if fetch.picture_id is None)
    single: dict[int, list[datetime]] = {}
    for fetch in fetches:
        if fetch.picture_id is not None:
            single.setdefault(fetch.picture_id, []).append(fetch.at)
    rows = []
    for picture in delivered_pictures(delivery):
        times = sorted([*single.get(picture.pk, ()), *whole])
        rows.append(FetchedPicture(picture, times[0] if times else None, len(times)))
    return DeliveryPage(delivery, tuple(rows), whole)


def delivered_pictures(delivery: Delivery) -> list[Picture]:
    """Return a delivery's pictures without the withdrawn ones, by name. One query."""
    return list(delivery.pictures.filter(withdrawn_at=None).order_by("name", "pk"))


def sendable_pictures(shoot: Shoot) -> list[Picture]:
    """Return a shoot's pictures with their shots and earlier deliveries. Two queries."""
    return list(
        Picture.objects.filter(shoot=shoot, withdrawn_at=None)
        .select_related("shot")
        .prefetch_related(Prefetch("deliveries", queryset=Delivery.objects.only("pk")))
        .order_by("name", "pk")
    )


@dataclass(frozen=True)
class JudgedPicture:
    """A picture against the mood of its shot; no verdict while it isn't measured or where there is no mood."""

    picture: Picture
    verdict: moods.Verdict | None
    has_mood: bool


@dataclass(frozen=True)
class MoodGroup:
    """A mood with the pictures that were to have it; None for those whose shot has no mood."""

    view: moods.MoodView | None
    pictures: tuple[JudgedPicture, ...]

    @property
    def within(self) -> int:
        return sum(judged.verdict is not None and judged.verdict.is_within for judged in self.pictures)

    @property
    def judged(self) -> int:
        return sum(judged.verdict is not None for judged in self.pictures)


@dataclass(frozen=True)
class MoodsOfPictures:
    """All pictures of a shoot against what was agreed."""

    groups: tuple[MoodGroup, ...]
    unmeasured: int


def pictures_against_moods(shoot: Shoot) -> MoodsOfPictures:
    """Return every picture against the mood of its shot, or the shoot's only mood. Three queries."""
    views = moods.mood_views(shoot)
    only = next(iter(views)) if len(views) == 1 else None
    by_mood: dict[int | None, list[JudgedPicture]] = {pk: [] for pk in (*views, None)}
    unmeasured = 0
    pictures = Picture.objects.filter(shoot=shoot, withdrawn_at=None).select_related("shot").order_by("name", "pk")
    for picture in pictures:
        found = picture.found
        unmeasured += found is None
        pk = picture.shot.mood_id if picture.shot and picture.shot.mood_id else only
        view = views.get(pk) if pk is not None else None
        verdict = moods.verdict_of(found, view) if view is not None and found is not None else None
        by_mood[pk if view is not None else None].append(JudgedPicture(picture, verdict, view is not None))
    groups = tuple(MoodGroup(views.get(pk) if pk else None, tuple(rows)) for pk, rows in by_mood.items() if rows)
    return MoodsOfPictures(groups, unmeasured)
