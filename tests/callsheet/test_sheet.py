"""What stands on whose sheet, and what is still missing for it."""

from __future__ import annotations

import json
from datetime import date, time
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from shoots.callsheet.queries.copies import shoot_sheets
from shoots.callsheet.queries.ready import checks_of, open_words
from shoots.callsheet.queries.sheet import Issue, SheetNotes, client_reader, general_sheet, places_of, sheet_for
from shoots.members.models import Studio
from shoots.places.models import Permission
from shoots.schedule import actions as schedule
from shoots.schedule.queries.plan import DayPage, day_page
from shoots.shoot.models import BookingKind, ShootDay
from shoots.shotlist.models import Outfit, Product
from tests import factories
from tests.factories import NOW
from tests.schedule.factories import Job, held, make_job

pytestmark = pytest.mark.django_db


@pytest.fixture
def job(studio: Studio) -> Job:
    studio.insurance = "Public liability £5 m"
    studio.save()
    job = make_job(studio)
    schedule.draft_plan(day=job.day, by=None, now=NOW)
    return job


def page(job: Job) -> DayPage:
    rows = ShootDay.objects.select_related("shoot__client", "shoot__contact", "shoot__studio", "studio", "place")
    return day_page(rows.get(pk=job.day.pk))


def issue(**fields: Any) -> Issue:
    return Issue(
        **{
            "number": "26-001-0609-1",
            "kind": "ADVANCE",
            "kind_words": "Advance call sheet",
            "revision": 1,
            "issued_at": NOW,
            "notes": SheetNotes("At six the evening before", "Soup at noon", "Warm clothes"),
            **fields,
        }
    )


def own(job: Job, name: str, **fields: Any) -> dict[str, Any]:
    shown = page(job)
    person = next(person for person in shown.people if person.person.name == name)
    return sheet_for(person, shown, issue(**fields))


def phones(content: dict[str, Any]) -> set[str]:
    return {contact["phone"] for contact in content["contacts"]}


def test_talent_reads_its_own_shots_and_production_as_the_only_number(job: Job) -> None:
    content = own(job, "Leo Strand")
    assert [shot["title"] for setup in content["setups"] for shot in setup["shots"]] == ["Picture 1", "Picture 2"]
    assert content["person"]["bring"] == "Trail shoes" and content["person"]["shots"] == [1, 2]
    assert phones(content) == {"0114 496 0110"}
    theirs = {row["words"]: row["is_theirs"] for row in content["timetable"] if row["kind"] == "SHOOT"}
    assert theirs == {"North rim": True, "Wet slab": False}


def test_crew_reads_all_shots_and_the_number_of_its_lead_but_of_nobody_else(job: Job) -> None:
    content = own(job, "Rhona Vell")
    assert sum(len(setup["shots"]) for setup in content["setups"]) == 4
    assert phones(content) == {"0114 496 0110", "07700 900161"}


def test_the_lead_reads_the_crews_numbers_and_not_the_talents(job: Job) -> None:
    assert phones(own(job, "Bea Tolland")) == {"0114 496 0110", "07700 900162"}


def test_a_producer_reads_all_numbers_and_diets_without_names(job: Job) -> None:
    held(job.shoot, "Jude Marrack", "Producer", phone="07700 900170")
    content = own(job, "Jude Marrack")
    assert phones(content) == {"0114 496 0110", "07700 900161", "07700 900162", "07700 900163"}
    assert content["diets"] == [{"what": "No nuts", "people": 1}]
    assert own(job, "Rhona Vell")["diets"] == []


def test_the_client_reads_no_number_but_production_and_nothing_of_the_crews(job: Job) -> None:
    shown = page(job)
    content = sheet_for(client_reader(job.shoot.contact, shown), shown, issue())  # type: ignore[arg-type]
    assert phones(content) == {"0114 496 0110"} and content["hired"] == [] and content["diets"] == []


def test_no_sheet_holds_a_price_a_bank_account_a_birthday_or_a_private_number_of_others(job: Job) -> None:
    job.shoot.studio.sort_code = "60-16-13"
    job.shoot.studio.save()
    job.leo.person.birth_date, job.leo.person.day_fee = date(2011, 2, 3), 380
    job.leo.person.save()
    shown = page(job)
    contents = [general_sheet(shown, issue(open_items=open_words(checks_of(shown, None), told_only=False)))]
    contents += [sheet_for(person, shown, issue()) for person in shown.people]
    for content in contents:
        said = json.dumps(content)
        for private in ("GB29NWBK", "60-16-13", "2011", "380.00", "is 15", "under 18:"):
            assert private not in said, private
        assert "07700 900163" not in said
        assert content["has_minor"] is True


def test_own_food_stands_on_ones_own_sheet_alone(job: Job) -> None:
    assert own(job, "Bea Tolland")["person"]["diet"] == "No nuts"
    assert "No nuts" not in json.dumps(own(job, "Rhona Vell"))


def test_ones_own_call_comes_before_the_days(job: Job) -> None:
    assert own(job, "Rhona Vell")["person"]["call"] == "09:30"
    assert own(job, "Bea Tolland")["person"]["call"] == "10:00"


def test_the_timetable_begins_with_ones_own_call(job: Job) -> None:
    job.leo.call_time = time(10, 45)
    job.leo.save()
    assert [row["start"] for row in own(job, "Leo Strand")["timetable"]][:2] == ["10:30", "11:00"]


def test_without_a_call_no_reckoned_hour_is_printed(studio: Studio) -> None:
    job = make_job(studio, call_time=None)
    schedule.draft_plan(day=job.day, by=None, now=NOW)
    content = general_sheet(page(job), issue())
    assert content["timetable"] == [] and content["strip"] == "" and content["day"]["ends"] == ""
    assert all(setup["times"] == [] for setup in content["setups"])


def test_a_second_option_is_neither_named_nor_called(job: Job) -> None:
    job.rhona.confirmed_at, job.rhona.option_rank = None, 2
    job.rhona.save()
    assert "Rhona" not in json.dumps(general_sheet(page(job), issue()))


def test_the_place_stands_there_with_position_and_the_countrys_emergency_numbers(job: Job) -> None:
    place = general_sheet(page(job), issue())["places"][0]
    assert (place["latitude"], place["longitude"]) == ("53.34000", "-1.63000")
    assert place["position"] == "53°20′24.0″N 001°37′48.0″W"
    assert place["emergency"] == ["999", "112"] and place["hospital"] == "General Hospital, 0114 496 0999"
    job.place.country = "FR"
    job.place.save()
    assert general_sheet(page(job), issue())["places"][0]["emergency"] == ["112"]


def test_every_place_of_the_day_is_printed_once(job: Job, studio: Studio) -> None:
    job.slab.place = factories.make_place(studio, name="Reservoir wall")
    job.slab.save()
    assert [place.name for place in places_of(page(job))] == ["Quarry rim", "Reservoir wall"]


def states(job: Job) -> dict[str, str]:
    return {check.code: check.state.value for check in checks_of(page(job), None)}


def test_a_day_with_everything_has_nothing_open(job: Job) -> None:
    assert open_words(checks_of(page(job), None), told_only=False) == ()


def test_each_thing_that_is_missing_is_found_with_a_door_to_mend_it(job: Job) -> None:
    job.day.call_time = None
    job.day.confirmed_at = None
    job.day.save()
    job.place.hospital, job.place.permission = "", Permission.TO_ASK
    job.place.save()
    job.leo.confirmed_at = None
    job.leo.save()
    job.bea.person.email = ""
    job.bea.person.save()
    found = states(job)
    assert {code for code, state in found.items() if state == "MISSING"} == {"CALL", "HOSPITAL", "PERMISSION"}
    assert {code for code, state in found.items() if state == "LOOK"} >= {"DAY", "CONFIRMED", "MAIL"}
    assert all(check.url.startswith("/") for check in checks_of(page(job), None))


def test_what_concerns_only_the_studio_is_open_on_its_sheet_alone(job: Job) -> None:
    job.leo.confirmed_at = None
    job.leo.save()
    job.place.permission = Permission.ASKED
    job.place.save()
    checks = checks_of(page(job), None)
    assert open_words(checks, told_only=True) == ("Quarry rim: permission is asked, not given",)
    assert "Leo Strand is only pencilled" in open_words(checks, told_only=False)


def test_the_list_is_read_in_as_few_queries_with_many_days_as_with_one(job: Job) -> None:
    def counted() -> int:
        with CaptureQueriesContext(connection) as queries:
            shoot_sheets(job.shoot)
        return len(queries)

    few = counted()
    for n in range(5):
        factories.make_day(job.shoot, date=date(2026, 6, 12 + n), place=job.place)
        held(job.shoot, f"Hand {n}", "Helper", BookingKind.CREW)
        factories.make_shot(job.shoot, setup=job.rim, day=job.day)
    assert counted() == few


def test_a_sheet_says_which_samples_are_there_and_what_an_outfit_is_made_of(job: Job) -> None:
    product = Product.objects.get(shoot=job.shoot)
    factories.make_sample(product, size="M", colour="slate", arrived_date=date(2026, 5, 1), note="Scuffed")
    factories.make_sample(product, size="L", due_date=date(2099, 1, 1))
    shot = job.shoot.shots.first()
    outfit = Outfit.objects.create(
        studio=job.shoot.studio, shoot=job.shoot, name="Storm kit", pieces="Jacket\n\nShorts"
    )
    shot.outfits.add(outfit)
    type(shot).objects.filter(pk=shot.pk).update(moment="DUSK", moment_note="before the lamps go on")
    sheet = general_sheet(page(job), issue())
    (listed,) = sheet["products"]
    assert (listed["what"], listed["shots"]) == ("12 litre pack", [1, 2, 3, 4])
    assert [(one["what"], one["state"], one["due"], one["is_here"]) for one in listed["samples"]] == [
        ("M, slate", "here", "", True),
        ("L", "awaited", "2099-01-01", False),
    ]
    assert sheet["outfits"] == [{"what": "Storm kit", "pieces": ["Jacket", "Shorts"], "shots": [1]}]
    assert sheet["setups"][0]["shots"][0]["moment"] == "after sunset, before the lamps go on"
    assert "price" not in str(sheet)
