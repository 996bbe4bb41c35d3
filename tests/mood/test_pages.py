"""Moods, references and the mood sheet through the pages: what is kept, what is refused, who may."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import datetime, timedelta
from types import SimpleNamespace

import pytest
from django.core.files.storage import default_storage
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from shoots.brief import actions as brief
from shoots.brief.models import Mood
from shoots.links.actions import token_of
from shoots.members.models import Member, Studio
from shoots.mood import actions
from shoots.mood.core.measure import WAY
from shoots.mood.models import MoodShare, MoodTarget, Reference
from shoots.outbox import actions as outbox
from shoots.outbox.models import Mail, Message
from shoots.shoot import actions as shoots
from shoots.shoot.models import Shoot
from shoots.trail.models import Entry
from tests import factories
from tests.mood.files import huge_png, jpeg, of_array, picture


@pytest.fixture
def now() -> datetime:
    """The real moment: links are opened through pages, which read the real clock."""
    return timezone.now()


@pytest.fixture
def shoot(studio: Studio) -> Shoot:
    client = factories.make_client(studio)
    return factories.make_shoot(studio, code="26-001", client=client, contact=factories.make_contact(client))


@pytest.fixture
def mood(shoot: Shoot) -> Mood:
    return factories.make_mood(shoot, name="Storm", words="wet stone", brightness=10)


@pytest.fixture
def add(shoot: Shoot, mood: Mood, owner: Member, now: datetime) -> Callable[..., Reference]:
    def add(kind: str = "dark", *, seed: int = 0, within_s: float = 9.0, **more: object) -> Reference:
        fields = {"mood": mood, "whose": "CLIENT", "credit": "", "note": "", **more}
        file = SimpleUploadedFile("x.jpg", jpeg(kind, seed=seed))
        name = f"{kind}-{seed}.jpg"
        return actions.add_reference(
            shoot=shoot,
            file=file,
            name=name,
            within_s=within_s,
            by=owner,
            now=now,
            **fields,  # type: ignore[arg-type]
        )

    return add


def url(name: str, *args: object) -> str:
    return reverse(name, args=["26-001", *args])


def text_of(answer: object) -> str:
    return re.sub(r"\s+", " ", answer.content.decode())  # type: ignore[attr-defined]


def upload(browser: Client, mood: Mood, *files: tuple[str, bytes], **more: object) -> object:
    sent = [SimpleUploadedFile(name, data) for name, data in files]
    typed = {"files": sent, "mood": mood.pk, "whose": "CLIENT", "credit": "", **more}
    return browser.post(url("reference_add"), typed)


def test_several_references_are_kept_measured_and_said_in_a_sentence_first(browser: Client, mood: Mood) -> None:
    answer = upload(browser, mood, *((f"{n}.jpg", jpeg(seed=n)) for n in range(3)), ("sky.jpg", jpeg("bright")))
    assert answer.status_code == 302  # type: ignore[attr-defined]
    references = list(Reference.objects.all())
    assert [(r.name, r.position, r.mood, r.whose) for r in references] == [
        ("0.jpg", 0, mood, "CLIENT"),
        ("1.jpg", 1, mood, "CLIENT"),
        ("2.jpg", 2, mood, "CLIENT"),
        ("sky.jpg", 3, mood, "CLIENT"),
    ]
    assert all(r.found is not None and r.preview_key for r in references)
    assert Entry.objects.filter(deed="added", shoot_code="26-001").count() == 4
    page = text_of(browser.get(url("mood_detail", mood.pk)))
    assert re.search(r"Dark; \d+ % in shadow; reference 4 disagrees\.", page)
    assert page.index("reference 4 disagrees") < page.index('<ol class="refs"')


@pytest.mark.parametrize(
    ("name", "data", "says"),
    [
        ("huge.png", huge_png(), "huge.png has 30000 pixels on its longer side; 20000 is the most"),
        ("wide.png", huge_png(11_000), "wide.png has 121 megapixels; 100 is the most"),
        ("cut.jpg", jpeg(seed=3)[:3000], "cut.jpg is no JPEG, PNG, TIFF or WebP that can be read"),
        ("lie.jpg", b"GIF89a" + b"\0" * 99, "lie.jpg is no JPEG"),
        ("words.tif", b"II*\0 nothing of the kind", "words.tif is no JPEG"),
        ("bare.jpg", b"", "bare.jpg is empty"),
        ("twice.jpg", jpeg(seed=1), "twice.jpg is here already, the very same file"),
    ],
)
def test_a_bad_file_is_named_by_the_field_and_the_rest_is_kept(
    browser: Client, mood: Mood, name: str, data: bytes, says: str
) -> None:
    answer = upload(browser, mood, ("good.jpg", jpeg(seed=1)), (name, data), credit="Scarp’s archive")
    page = text_of(answer)
    assert answer.status_code == 422  # type: ignore[attr-defined]
    form = answer.context["form"]  # type: ignore[attr-defined]
    assert any(says in error for error in form.errors["files"])
    assert says in page and "1 reference was added" in page
    assert 'value="Scarp’s archive"' in page
    assert [r.name for r in Reference.objects.all()] == ["good.jpg"]
    assert len(default_storage.listdir("references")[1]) == 1


def test_a_name_that_says_another_format_is_believed_by_its_bytes(browser: Client, mood: Mood) -> None:
    upload(browser, mood, ("really-a-png.jpg", picture().write_to_buffer(".png")))
    assert Reference.objects.get().format == "PNG"


def test_somebody_else_s_picture_needs_to_say_whose(browser: Client, mood: Mood) -> None:
    answer = upload(browser, mood, ("a.jpg", jpeg()), whose="OTHER")
    assert answer.status_code == 422  # type: ignore[attr-defined]
    assert "credit" in answer.context["form"].errors  # type: ignore[attr-defined]
    assert not Reference.objects.exists()
    assert upload(browser, mood, ("a.jpg", jpeg()), whose="OTHER", credit="a calendar").status_code == 302  # type: ignore[attr-defined]
    page = text_of(browser.get(url("mood_detail", mood.pk)))
    assert "Somebody else’s, a calendar" in page
    assert "for reference only" in page


def test_no_file_and_a_foreign_mood_are_errors_by_their_fields(
    browser: Client, mood: Mood, other_studio: Studio
) -> None:
    answer = browser.post(url("reference_add"), {"whose": "CLIENT", "mood": mood.pk})
    assert (answer.status_code, list(answer.context["form"].errors)) == (422, ["files"])
    foreign = factories.make_mood(factories.make_shoot(other_studio))
    answer = upload(browser, foreign, ("a.jpg", jpeg()))
    assert (answer.status_code, list(answer.context["form"].errors)) == (422, ["mood"])  # type: ignore[attr-defined]
    assert not Reference.objects.exists()


def test_what_would_hold_up_the_request_is_left_to_a_job(
    browser: Client, mood: Mood, add: Callable[..., Reference], now: datetime
) -> None:
    reference = add(seed=5, within_s=0.0)
    assert reference.measured is None and not reference.preview_key
    assert "Being measured" in text_of(browser.get(url("mood_detail", mood.pk)))
    assert browser.get(url("reference_preview", reference.pk)).status_code == 404
    outbox.drain(now=now)
    reference.refresh_from_db()
    assert reference.found is not None and reference.preview_key
    before = reference.preview_key
    actions.measure_reference(reference_id=reference.pk)  # a second run of the job
    reference.refresh_from_db()
    assert reference.preview_key == before
    assert len(default_storage.listdir("reference-previews")[1]) == 1


def test_a_damaged_file_that_the_job_finds_is_said_by_the_picture(
    browser: Client, shoot: Shoot, mood: Mood, owner: Member, now: datetime
) -> None:
    file = SimpleUploadedFile("cut.jpg", jpeg(seed=6)[:3000])
    actions.add_reference(
        shoot=shoot, mood=mood, file=file, name="cut.jpg", whose="CLIENT", within_s=0.0, by=owner, now=now
    )
    outbox.drain(now=now)
    assert "This file can’t be read" in text_of(browser.get(url("mood_detail", mood.pk)))
    assert Message.objects.get(task="mood.measure").state == "DONE"


def test_a_picture_that_is_transparent_all_over_is_refused(browser: Client, mood: Mood) -> None:
    import numpy as np

    nothing = of_array(np.zeros((20, 20, 4), np.uint8)).pngsave_buffer()
    answer = upload(browser, mood, ("nothing.png", bytes(nothing)))
    assert answer.status_code == 422  # type: ignore[attr-defined]
    assert not Reference.objects.exists()


def test_the_figures_open_with_formula_inputs_and_source(
    browser: Client, mood: Mood, add: Callable[..., Reference]
) -> None:
    add()
    page = text_of(browser.get(url("mood_detail", mood.pk)))
    assert "100 × points in the third ÷ all points" in page
    assert "points there" in page and "ISO/CIE 11664-4:2019" in page
    assert page.count('<details class="ref-figures">') == 1


def test_references_are_ordered_moved_between_moods_and_removed_with_their_files(
    browser: Client, shoot: Shoot, mood: Mood, add: Callable[..., Reference], django_capture_on_commit_callbacks
) -> None:  # type: ignore[no-untyped-def]
    first, second = add(seed=1), add(seed=2)
    browser.post(url("reference_move", second.pk), {"way": "up"})
    assert list(Reference.objects.all()) == [second, first]
    browser.post(url("reference_move", second.pk), {"way": "up"})
    assert list(Reference.objects.all()) == [second, first]
    other = factories.make_mood(shoot, name="Summer")
    typed = {"version": first.version, "mood": other.pk, "note": "the haze", "whose": "STUDIO", "credit": ""}
    assert browser.post(url("reference_edit", first.pk), typed).status_code == 302
    first.refresh_from_db()
    assert (first.mood, first.position, first.note) == (other, 0, "the haze")
    late = browser.post(url("reference_edit", first.pk), typed | {"note": "typed later"})
    assert late.status_code == 422
    assert "typed later" in text_of(late) and "in the meantime" in text_of(late)
    keys = [first.storage_key, first.preview_key]
    with django_capture_on_commit_callbacks(execute=True):
        browser.post(url("reference_remove", first.pk))
    assert not Reference.objects.filter(pk=first.pk).exists()
    assert not any(default_storage.exists(key) for key in keys)
    assert default_storage.exists(second.storage_key)


def test_a_mood_that_goes_leaves_its_references_to_be_sorted(
    browser: Client, mood: Mood, add: Callable[..., Reference], owner: Member, now: datetime
) -> None:
    reference = add()
    brief.remove_mood(mood=Mood.objects.get(pk=mood.pk), by=owner, now=now)
    reference.refresh_from_db()
    assert reference.mood is None
    assert "Not sorted yet" in text_of(browser.get(url("mood_list")))


def test_a_shoot_goes_with_its_references_and_a_sweep_takes_their_files(
    shoot: Shoot, mood: Mood, add: Callable[..., Reference], owner: Member, now: datetime
) -> None:
    reference = add()
    kept = factories.make_shoot(shoot.studio)
    file = SimpleUploadedFile("x.jpg", jpeg(seed=9))
    stays = actions.add_reference(
        shoot=kept, mood=None, file=file, name="x.jpg", whose="CLIENT", within_s=9, by=owner, now=now
    )
    actions.share_sheet(shoot=shoot, by=owner, now=now)
    shoots.delete_shoot(shoot=shoot, by=owner, now=now)
    assert list(Reference.objects.all()) == [stays]
    assert actions.sweep(now=now) == 0, "a file of the last hour may belong to a row that is about to be written"
    assert default_storage.exists(reference.storage_key)
    assert actions.sweep(now=now + timedelta(hours=2)) == 2
    assert not default_storage.exists(reference.storage_key)
    assert not default_storage.exists(reference.preview_key)
    assert default_storage.exists(stays.storage_key)


def test_what_was_measured_in_an_older_way_is_measured_again(add: Callable[..., Reference], now: datetime) -> None:
    reference = add()
    Reference.objects.filter(pk=reference.pk).update(measured={**reference.measured, "way": WAY - 1})
    actions.sweep(now=now)
    outbox.drain(now=now)
    reference.refresh_from_db()
    assert reference.found is not None


TARGETS = {"version": "0", "shadow_low": "40", "shadow_high": "90", "light_from_deg": "270"}


def test_targets_begin_with_the_place_and_are_the_mood_s_own_once_saved(
    browser: Client, mood: Mood, owner: Member
) -> None:
    page = browser.get(url("mood_targets", mood.pk))
    assert page.context["form"]["shadow_high"].value() == 100
    assert browser.post(url("mood_targets", mood.pk), TARGETS).status_code == 302
    target = MoodTarget.objects.get(mood=mood)
    assert (target.shadow_low, target.lightness_low, target.light_from_deg) == (40, None, 270)
    shown = text_of(browser.get(url("mood_detail", mood.pk)))
    assert "40 to 90 %" in shown and "from the left" in shown and "Set by hand" in shown
    late = browser.post(url("mood_targets", mood.pk), TARGETS | {"shadow_low": "10"})
    assert late.status_code == 422 and "in the meantime" in text_of(late)
    assert browser.post(url("mood_targets_clear", mood.pk)).status_code == 302
    assert not MoodTarget.objects.exists()
    assert "From its place" in text_of(browser.get(url("mood_detail", mood.pk)))


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({"shadow_low": "101"}, "shadow_low"),
        ({"shadow_low": "95"}, "shadow_high"),
        ({"chroma_high": "-1"}, "chroma_high"),
        ({"warm_shadows_low": "lots"}, "warm_shadows_low"),
        ({"light_from_deg": "17"}, "light_from_deg"),
    ],
)
def test_wrong_targets_are_named_by_their_field_and_stay_typed(
    browser: Client, mood: Mood, typed: dict[str, str], field: str
) -> None:
    answer = browser.post(url("mood_targets", mood.pk), TARGETS | typed)
    assert answer.status_code == 422
    assert field in answer.context["form"].errors
    if typed[next(iter(typed))] != "17":  # a choice has no words of its own to keep
        assert f'value="{next(iter(typed.values()))}"' in answer.content.decode()
    assert not MoodTarget.objects.exists()


def test_the_sheet_is_a_pdf_with_a_page_for_each_mood(
    browser: Client, shoot: Shoot, mood: Mood, add: Callable[..., Reference]
) -> None:
    import io

    import pdfplumber

    add(note="<b>edges</b> & light")
    factories.make_mood(shoot, name="Summer", brightness=88)
    answer = browser.get(url("mood_sheet"))
    assert answer["Content-Type"] == "application/pdf"
    with pdfplumber.open(io.BytesIO(b"".join(answer.streaming_content))) as paper:
        pages = [page.extract_text() for page in paper.pages]
        assert len(pages) == 2
        assert paper.pages[0].width > paper.pages[0].height
        assert len(paper.pages[0].images) == 1
    assert "Storm" in pages[0] and "wet stone" in pages[0] and "<b>edges</b> & light" in pages[0]
    assert "For reference only" in pages[0] and "Ambient" in pages[0]
    assert "Summer" in pages[1]


def test_thirty_references_take_three_pages_and_none_is_lost(
    browser: Client, shoot: Shoot, mood: Mood, add: Callable[..., Reference]
) -> None:
    import io

    import pdfplumber

    Mood.objects.filter(pk=mood.pk).update(name="A very long name " * 4, words="rain and slate and wind " * 12)
    for seed in range(30):
        add(seed=seed, note=f"note number {seed} " + "about light " * 8)
    assert Reference.objects.count() == 30
    with pdfplumber.open(io.BytesIO(b"".join(browser.get(url("mood_sheet")).streaming_content))) as paper:
        assert [len(page.images) for page in paper.pages] == [12, 12, 6]
        text = " ".join(page.extract_text() for page in paper.pages)
        for page in paper.pages:
            lowest = max(word["bottom"] for word in page.extract_words())
            assert lowest < page.height
    assert all(f"note number {seed}" in text for seed in range(30))
    assert browser.get(url("mood_list")).status_code == 200


def test_a_sheet_without_moods_or_references_is_still_a_sheet(browser: Client, shoot: Shoot) -> None:
    assert browser.get(url("mood_sheet")).status_code == 200
    factories.make_mood(shoot)
    assert browser.get(url("mood_sheet")).status_code == 200


@pytest.fixture
def share(shoot: Shoot, owner: Member, now: datetime) -> MoodShare:
    return actions.share_sheet(shoot=shoot, email="mara@example.com", name="Mara", message="Look", by=owner, now=now)


def test_a_link_opens_the_sheet_without_an_account_until_it_is_closed(
    browser: Client, shoot: Shoot, mood: Mood, add: Callable[..., Reference], share: MoodShare, now: datetime
) -> None:
    shown, loose = add(seed=1), add(seed=2, mood=None)
    token = token_of(share.link)
    outbox.drain(now=now)
    mail = Mail.objects.get(key=f"mood:{share.pk}")
    assert mail.sent_at is not None and "{{token:" in mail.text and "for reference only" in mail.text
    client = Client()
    page = client.get(reverse("client_mood", args=[token]))
    assert "Storm" in page.content.decode() and "for reference only" in page.content.decode()
    assert str(shoot.client) in page.content.decode(), (
        "whose it is, by name: “the client’s own” is no word for the client"
    )
    assert client.get(reverse("client_reference_preview", args=[token, shown.pk])).status_code == 200
    assert client.get(reverse("client_reference_preview", args=[token, loose.pk])).status_code == 404
    assert client.get(reverse("client_mood_pdf", args=[token]))["Content-Type"] == "application/pdf"
    share.link.refresh_from_db()
    assert share.link.first_opened_at is not None
    assert ">opened<" in browser.get(url("mood_list")).content.decode()
    browser.post(url("mood_share_close", share.pk))
    for name in ("client_mood", "client_mood_pdf"):
        assert client.get(reverse(name, args=[token])).status_code == 404
    assert client.get(reverse("client_reference_preview", args=[token, shown.pk])).status_code == 404


def test_the_studio_s_own_look_is_not_counted_as_the_client_s(browser: Client, mood: Mood, share: MoodShare) -> None:
    assert browser.get(reverse("client_mood", args=[token_of(share.link)])).status_code == 200
    share.link.refresh_from_db()
    assert share.link.first_opened_at is None


def test_a_link_of_another_purpose_opens_no_mood(share: MoodShare, now: datetime) -> None:
    from shoots.links import actions as links
    from shoots.links.models import Purpose

    other = links.make_link(studio=share.studio, purpose=Purpose.DELIVERY, expires_at=None, now=now)
    assert Client().get(reverse("client_mood", args=[token_of(other)])).status_code == 404
    bare = links.make_link(studio=share.studio, purpose=Purpose.MOOD, expires_at=None, now=now)
    assert Client().get(reverse("client_mood", args=[token_of(bare)])).status_code == 404


def test_sharing_through_the_page_with_and_without_an_address(browser: Client, shoot: Shoot) -> None:
    sent = browser.post(url("mood_share"), {"share-email": "mara@example.com", "share-name": "Mara"}, follow=True)
    assert "The link is on its way to mara@example.com" in text_of(sent)
    alone = browser.post(url("mood_share"), {"share-email": "", "share-name": ""}, follow=True)
    assert "hand it on" in text_of(alone)
    assert Mail.objects.filter(key__startswith="mood:").count() == 1
    wrong = browser.post(url("mood_share"), {"share-email": "nobody", "share-message": "Dear M"})
    assert wrong.status_code == 422 and "Dear M" in text_of(wrong)
    assert MoodShare.objects.count() == 2


def test_crew_look_at_the_moods_of_their_shoot_and_change_nothing(
    crew: Member, signed_in: Callable[[Member], Client], shoot: Shoot, mood: Mood, add: Callable[..., Reference]
) -> None:
    reference = add()
    theirs = signed_in(crew)
    assert theirs.get(url("mood_detail", mood.pk)).status_code == 404
    factories.make_booking(shoot, person=factories.make_person(shoot.studio, email=crew.user.email))
    page = text_of(theirs.get(url("mood_detail", mood.pk)))
    assert theirs.get(url("mood_list")).status_code == 200
    assert "Add references" not in page and "Remove" not in page
    for name, args in (("reference_add", ()), ("reference_remove", (reference.pk,)), ("mood_share", ())):
        assert theirs.post(url(name, *args)).status_code == 403


def test_html_in_notes_and_names_is_shown_as_text(browser: Client, mood: Mood, add: Callable[..., Reference]) -> None:
    add(note="<script>alert(1)</script>", credit="<img src=x>")
    for address in (url("mood_detail", mood.pk), url("mood_list")):
        page = browser.get(address).content.decode()
        assert "<script>alert" not in page and "<img src=x>" not in page


def test_the_pages_cost_the_same_for_two_references_and_for_ten(
    browser: Client,
    shoot: Shoot,
    mood: Mood,
    add: Callable[..., Reference],
    django_assert_num_queries: Callable[..., object],
    django_assert_max_num_queries: Callable[..., object],
) -> None:
    for seed in range(2):
        add(seed=seed)
    for address in (url("mood_list"), url("mood_detail", mood.pk)):
        with django_assert_max_num_queries(40) as few:  # type: ignore[attr-defined]
            browser.get(address)
        few.address = address  # type: ignore[attr-defined]
        before = len(few.captured_queries)
        factories.make_mood(shoot, name=address[-6:])
        for seed in range(4):
            add(seed=100 + seed + 10 * len(address))
        with django_assert_num_queries(before):
            browser.get(address)


def test_a_wait_of_a_second_is_shared_by_all_files_of_an_upload(
    browser: Client, mood: Mood, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A clock that jumps by 0.6 s at every look: the first two files are measured at once, the others by jobs."""
    from shoots.mood import views

    ticks = iter(range(1000))
    monkeypatch.setattr(views, "monotonic", lambda: 0.4 * next(ticks))
    upload(browser, mood, *((f"{n}.jpg", jpeg(seed=20 + n)) for n in range(4)))
    measured = [r.found is not None for r in Reference.objects.order_by("position")]
    assert measured == [True, True, False, False]
    assert Message.objects.filter(task="mood.measure").count() == 2


def test_expected_seconds_grow_with_the_picture() -> None:
    head = SimpleNamespace(megapixels=24.0, format="JPEG", is_interlaced=False)
    assert 0.3 < actions.expected_seconds(head) < 1.0  # type: ignore[arg-type]
    head.is_interlaced = True
    assert actions.expected_seconds(head) > 1.0  # type: ignore[arg-type]
    head.format, head.is_interlaced = "PNG", False
    assert actions.expected_seconds(head) > 1.0  # type: ignore[arg-type]


def test_nothing_needs_a_store_with_paths(settings, browser: Client, mood: Mood) -> None:  # type: ignore[no-untyped-def]
    """As with an object store: there are keys and bytes, and no file of this machine behind them."""
    memory = {"BACKEND": "django.core.files.storage.InMemoryStorage"}
    settings.STORAGES = {**settings.STORAGES, "default": memory}
    upload(browser, mood, ("a.jpg", jpeg(seed=1)))
    reference = Reference.objects.get()
    assert browser.get(url("reference_preview", reference.pk))["Content-Type"] == "image/jpeg"
    assert b"".join(browser.get(url("mood_sheet")).streaming_content)[:5] == b"%PDF-"  # type: ignore[attr-defined]
    actions.sweep(now=timezone.now() + timedelta(hours=3))
    assert default_storage.exists(reference.storage_key)


def test_there_is_nothing_to_share_before_there_is_a_mood(browser: Client, shoot: Shoot) -> None:
    page = text_of(browser.get(url("mood_list")))
    assert "Add the first mood" in page and "Share the mood sheet" not in page
    factories.make_mood(shoot)
    assert "Share the mood sheet" in text_of(browser.get(url("mood_list")))


def test_a_loose_reference_is_called_by_its_file_s_name(browser: Client, add: Callable[..., Reference]) -> None:
    add(mood=None)
    page = text_of(browser.get(url("mood_list")))
    assert "of reference 0" not in page and "> dark-0.jpg</span></summary>" in page
