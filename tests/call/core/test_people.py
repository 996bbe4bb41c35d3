"""People in the pictures (shoots.call.core.people). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from shoots.call.core.drafts import DraftKind
from tests.call.core.notes import data, values


def people(text: str) -> list[tuple[str | None, int | None, int | None]]:
    return [(p["who"], p["count"], p["age"]) for p in data(text)["people"]["entries"]]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("two runners", [("runners", 2, None)]),
        ("models x 3", [("models", 3, None)]),
        ("a hand model", [("hand model", 1, None)]),
        ("two runners, one is her nephew, he's 16", [("runners", 2, None), ("nephew", 1, 16)]),
        ("her daughter Mia, 8", [("daughter", 1, 8)]),
        ("portrait of the founder", [("founder", 1, None)]),
        ("Model: female, 30s", [("model", 1, None)]),
    ],
)
def test_people(text: str, found: list[tuple[str | None, int | None, int | None]]) -> None:
    assert people(text) == found


@pytest.mark.parametrize(
    "text",
    [
        "no models",
        "the founder signs off",
        "for runners everywhere",
        "model release",
        "budget incl. model",
        "send to the team",
    ],
)
def test_who_is_not_in_the_pictures(text: str) -> None:
    assert people(text) == []


def test_out_of_school_says_more_about_the_same_person() -> None:
    assert len(people("her nephew, he's 16, out of school at three")) == 1


def test_crew_stands_behind_the_camera() -> None:
    found = data("hair and make-up artist, two models")["people"]
    assert [p["who"] for p in found["entries"]] == ["models"] and len(found["crew"]) == 1


def test_the_same_role_is_named_once() -> None:
    assert len(values("two models\nmodels booked by us, models wear black", DraftKind.PERSON)) == 1


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("two dancers, one ballet one street", [("dancers", 2, None)]),
        ("model: f, 20s, booked through agency", [("model", None, None)]),
        ("a retired couple walking on the pier", [("couple", None, None)]),
        ("portrait of the head gardener", [("gardener", None, None)]),
        ("four staff in the pictures", [("staff", 4, None)]),
        ("hands only, no faces", [("hands", None, None)]),
        ("Her daughter (12) rides the pony", [("daughter", None, 12)]),
        ("the chef plating up", [("chef", None, None)]),
        ("three volunteers and a nurse in uniform", [("volunteers", 3, None), ("nurse", None, None)]),
        ("real customers, not models", [("customers", None, None)]),
        ("a boy of 10 and his grandfather", [("boy", None, 10), ("grandfather", None, None)]),
        ("talent x2 supplied by agency", [("talent", 2, None)]),
        ("he wants his apprentice, 17, at the bench", [("apprentice", None, 17)]),
        ("we need two hand models", [("hand models", 2, None)]),
        ("the two sisters who own it, together", [("sisters", 2, None)]),
        ("1 male model 30-40", [("male model", 1, None)]),
        ("six players from the under-12 team", [("players", 6, None)]),
        ("swimmer, early 30s, open water", [("swimmer", None, None)]),
        ("portraits of all nine partners", [("partners", 9, None)]),
        ("no people", []),
        ("the director signs it off", []),
        ("marketing manager will be on set", []),
        ("stylist and assistant come along", []),
        ("aimed at young mums", []),
        ("send invoice to the owner", []),
        ("ask the farmer for permission", []),
        ("her husband pays", []),
        ("the team on the roof, 14 people", [("people", 14, None)]),
        ("an athlete (24) and her coach", [("athlete", None, 24), ("coach", None, None)]),
        ("kids 6-10 playing", [("kids", None, 6)]),
        ("A woman in her forties drinks tea by the window.", [("woman", None, None)]),
        ("a group of friends, 5-6, having a picnic", [("friends", None, None)]),
        ("With a model who can really ride.", [("model", None, None)]),
        ("We see the baker from behind.", [("baker", None, None)]),
        ("the weaver at her loom", [("weaver", None, None)]),
        ("one picture with both brothers", [("brothers", None, None)]),
        ("His daughter, who is eight, will hold the lamb.", [("daughter", 1, 8)]),
        ("3 models (2f 1m), 25-35", [("models", 3, 25)]),
        ("a bartender shaking", [("bartender", None, None)]),
        ("two builders on the scaffold", [("builders", 2, None)]),
        ("The MD and four engineers, portraits.", [("md", None, None), ("engineers", 4, None)]),
        ("an old man fishing", [("man", None, None)]),
        ("shoppers blurred in the background", [("shoppers", None, None)]),
        ("the glassblower at the furnace", [("glassblower", None, None)]),
        ("her mum in the shop doorway", [("mum", None, None)]),
        ("models: their own staff", [("staff", None, None)]),
        ("Two children run through the corn.", [("children", 2, None)]),
        ("four women over sixty", [("women", 4, None)]),
        ("Portrait of Jonas at his desk", [("Jonas", None, None)]),
        ("the goalkeeper, 19, in the rain", [("goalkeeper", None, 19)]),
        ("eight cyclists in a line", [("cyclists", 8, None)]),
        ("Someone pouring, we only see the hand.", []),
        ("the postwoman delivering a parcel", [("postwoman", None, None)]),
        ("dancer mid-jump", [("dancer", None, None)]),
        ("teenagers skating, 14 to 17", [("teenagers", None, 14)]),
        ("with the founder in one of them", [("founder", 1, None)]),
        ("twins aged 4", [("twins", None, 4)]),
        ("grandad teaching his grandson", [("grandad", None, None), ("grandson", None, None)]),
        ("a class of 20 kids", [("kids", 20, None)]),
    ],
)
def test_who_is_in_the_pictures_in_other_words(line: str, found: list[tuple[str, int | None, int | None]]) -> None:
    got = people("a first line about nobody\n" + line)
    assert len(got) == len(found), got
    for who, count, age in found:
        assert any(
            who in (other[0] or "") and count in (None, other[1]) and age in (None, other[2]) for other in got
        ), got


@pytest.mark.parametrize(
    "line",
    [
        "for runners", "made by hand by three people", "ask the chef for the menu", "the founder rang",
        "her brother pays",
        "aimed at parents", "customers love it", "a people person", "three generations of bakers", "children's books",
        "men's range", "kids' menu", "the agency casts", "for dog owners", "guests at the hotel",
        "two friends founded it",
        "mothers day", "maker of knives", "crew lunch", "models: tbc",
    ],
)  # fmt: skip
def test_who_is_only_spoken_of(line: str) -> None:
    assert people("a first line about nobody\n" + line) == []


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Poppy 9 on the grey pony, Beth 15 leading", [("Poppy", 1, 9), ("Beth", 1, 15)]),
        ("bay 9 on the left, level 15 above", []),
        ("two girls 19 + 23, one bloke 30", [("girls", 2, 19), ("bloke", 1, 30)]),
        ("two fallers, 35 and 52", [("fallers", 2, 35)]),
        ("her sat girl whos 17", [("girl", 1, 17)]),
        ("a mum with a baby (the receptionist's daughter)", [("mum", 1, None), ("baby", 1, None)]),
        ("no faces of the two lads at the back", []),
        ("kids waterproofs in green", []),
    ],
)
def test_who_is_in_them_and_how_old(text: str, found: list[tuple[str | None, int | None, int | None]]) -> None:
    assert people("a first line about nobody\n" + text) == found


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("a girl of nine, who is her cousin, on the swing", [("girl", 1, 9)]),
        ("one skater, her pal Una skates, no helmet logos", [("skater", 1, None)]),
        ("a boy 15 hes local", [("boy", 1, 15)]),
        ("three dancers, one of whom is fourteen", [("dancers", 3, None), (None, None, 14)]),
        ("ploughman 61 and his wife sat on the wall", [("ploughman", 1, 61), ("wife", 1, None)]),
        ("his aunt, who is seventy, signs everything off", []),
        ("her uncle, 66, pays", []),
        ("Ida Potter wants it dark", []),
        ("weaver at the loom, 71, and her apprentice, 19", [("weaver", 1, 71), ("apprentice", 1, 19)]),
        ("4 clerks and the receptionist", [("clerks", 4, None), ("receptionist", 1, None)]),
        ("our wefter at her bench", [("wefter", 1, None)]),
        ("a poster at work", []),
        ("no wefter at work", []),
        ("in a diner", []),
        ("talent / man approx 60, woman approx 35", [("man", 1, 60), ("woman", 1, 35)]),
    ],
)
def test_who_it_is_and_who_only_belongs_to_them(
    text: str, found: list[tuple[str | None, int | None, int | None]]
) -> None:
    assert people("a first line\n" + text) == found


def test_who_makes_it_is_not_in_it_because_the_notes_begin_with_who() -> None:
    assert people("who: rug maker, Alby\nwhat: rugs") == []
