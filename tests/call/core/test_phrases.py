"""The phrases of the trade, one by one: every example that the readers were asked to know, and their neighbours.

The call is on Thursday 14 May 2026 in Britain unless a row says otherwise. Labels: own, by meaning; weeks by their
number: ISO 8601.
"""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from tests.call.core.notes import CALLED, data


def at(found: Any, path: str) -> Any:
    """Follow "dates.0.any_of" into the data that the door prints; a star takes one key of every entry."""
    keys = path.split(".")
    for place, key in enumerate(keys):
        if key == "*":
            return [at(entry, ".".join(keys[place + 1 :])) for entry in found]
        found = found[int(key)] if key.isdigit() else found[key]
    return found


@pytest.mark.parametrize(
    ("text", "path", "value"),
    [
        # prices
        ("budget 2.5k", "money.0.amount", 2500),
        ("£1,800 + VAT", "money.0.tax", "excluded"),
        ("five all in", "money.*.amount", [5000]),
        ("five all in", "money.0.kind", "all in"),
        ("five all in", "money.0.tax", "unknown"),
        ("1900+vat all in", "money.0.kind", "all in"),
        ("fee 1.5k ex", "money.0.tax", "excluded"),
        ("750 inc", "money.0.tax", "included"),
        ("500-600", "money.0.up_to", 600),
        ("3 grand tops, tax on top", "money.0.tax", "excluded"),
        ("8 000 € HT, all in", "money.0.tax", "excluded"),
        ("£85/pic, 9 pics", "money.0.total", 765),
        ("£25 a sari", "money.0.per", "sari"),
        ("budget 2k?? talked him up to 2.4k", "money.*.amount", [2400]),
        ("£90 for coffee styling props", "money.0.kind", "expenses"),
        ("2 500 € HT, deposit 30%", "money.*.kind", ["budget"]),
        ("£1,450 inc everything", "money.*.kind", ["all in"]),
        # counts
        ("10–12 finals", "finals.min", 10),
        ("couple of 9:16", "shapes.0.count", 2),
        ("one hero, three cut-downs", "finals.max", 1),
        ("one hero, three cut-downs", "counts.*.of", ["heroes", "crops"]),
        ("10 pics lifestyle, 4 packshots", "finals.max", 14),
        ("14 staff portraits, 6 interiors, 4 animals", "finals.max", 24),
        ("20 imgs all portrait + 3 landscape for web", "finals.max", 23),
        ("6 pics 1:1, 2 pics 16:9", "finals.max", 8),
        ("3 straps. four packshots per strap", "finals.max", 12),
        ("2 days. 60 images/day edited", "finals.max", 120),
        ("12 chairs, front and detail each => 24", "finals.max", 24),
        ("20 images: 12 on white, 8 outside, her daughter for two pictures", "finals.max", 20),
        ("8 pieces x 3 angles, plus 2 worn", "finals.max", 26),
        ("has to be after 5, some pics", "finals", None),
        ("key visual, 1 hero landscape 48 sheet", "finals.max", 1),
        ("12 finals, one hero in landscape for the web shop banner", "finals.max", 12),
        ("new 12 litre pack, burnt orange", "finals", None),
        ("10 x 1:1 + banner 3:1", "finals.max", 11),
        ("Exteriors (4), interiors (8), staircase detail (2) -- call it fourteen", "finals.max", 14),
        ("was 20 pics, now 14", "finals.max", 14),
        ("headshots of the cast (11)", "finals.max", 11),
        ("10 lifestyle\n8 studio: on white", "finals.max", 18),
        ("one big picture for the billboard and four little ones for social", "finals.max", 5),
        ("6 recipes, each one hero and one step shot", "finals.max", 12),
        ("6 portraits, 6 at-work pictures", "finals.max", 12),
        ("12 stills for web. 12 stills for print", "finals.max", 24),
        ("50 packshots; of these 10 also on model", "finals.max", 50),
        # shapes
        ("1 wide banner 21:9 for homepage", "shapes.*.count", [1]),
        ("2 vertical 9x16 for reels", "shapes.*.shape", ["9:16"]),
        ("2 vertical 9x16 for reels", "shapes.0.count", 2),
        ("3:2 landscape & 1:1", "shapes.*.shape", ["3:2", "1:1"]),
        ("need 16:9 for web hero x2, rest 4x5", "shapes.*.count", [2, None]),
        # dates
        ("shoot w/c 22 June - hold Tues & Wed, first option", "dates.*.from", ["2026-06-23"]),
        ("shoot w/c 22 June - hold Tues & Wed, first option", "dates.0.to", "2026-06-24"),
        ("shoot Monday week, if rain then the Tuesday", "dates.*.from", ["2026-05-25", "2026-05-26"]),
        ("shoot wk of Sept 7 or wk of Sept 14", "dates.*.from", ["2026-09-07", "2026-09-14"]),
        ("shoot 2 evenings next week, tues/thurs 6-9pm", "dates.0.any_of", ["2026-05-19", "2026-05-21"]),
        ("Tuesday 7 July? If that fails, Wednesday 8 July", "dates.*.kind", ["shoot", "cover"]),
        ("shoot sept 5 (sat), rain: sun 6", "dates.*.kind", ["shoot", "cover"]),
        ("shoot sept 5 (sat), rain: sun 6", "dates.*.from", ["2026-09-05", "2026-09-06"]),
        ("use: posters, website. till end of run (march 27)", "dates", []),
        ("opening 6am so be there at 4.30", "dates.0.hours", "04:30"),
        ("shoot Thu week", "dates.0.from", "2026-05-21"),
        ("shoot w/c 8 June", "dates.0.to", "2026-06-14"),
        ("before Easter", "dates.0.before", "2027-03-28"),
        ("in week 26, shoot", "dates.0.from", "2026-06-22"),
        ("shoot the week after next", "dates.0.from", "2026-05-25"),
        ("shoot 2+3 Sept; cut-outs the week after", "dates.1.from", "2026-09-07"),
        ("shoot tue or wed next wk", "dates.0.any_of", ["2026-05-19", "2026-05-20"]),
        ("needs them before the end of october", "dates.0.by", "2026-10-31"),
        ("shoot w/c 21 Sept with 25 and 26 September as weather cover", "dates.*.kind", ["shoot", "cover"]),
        ("9-10 july, wet weather 13 july", "dates.*.kind", ["shoot", "cover"]),
        ("first day: Tues 29 Sept. cover Thurs 1 Oct", "dates.*.kind", ["shoot", "cover"]),
        ("shoot 2 nights w/c 7 sept. launch 1 oct", "dates.0.from", "2026-09-07"),
        ("delivery: 21 Sept firm", "dates.*.kind", ["delivery"]),
        ("pencil the 17th June, second option the 18th", "dates.0.any_of", ["2026-06-17", "2026-06-18"]),
        ("pencil the 17th June, second option the 18th", "dates.0.held", True),
        ("thurs. 8ish at the shop", "dates.0.hours", "08:00"),
        ("half eight at ours", "dates.0.hours", "08:30"),
        ("half eight at ours", "dates.0.at", "client"),
        ("weds 3 june, 12.30 onwards", "dates.0.hours", "12:30"),
        ("PPM 8 Sep", "dates", []),
        # length, start, exclusivity
        ("usage a year", "licence.months", 12),
        ("web 18 mths", "licence.months", 18),
        ("in perpetuity", "licence.months", "perpetual"),
        ("2 seasons", "licence.months", 12),
        ("6 months from 1 sep", "licence.starts", "2026-09-01"),
        ("2 yrs first use, web", "licence.starts", "first use"),
        ("12 months. they'll want a buyout price too, web", "licence.months", 12),
        ("doesn't want any drones", "licence", None),
        ("category exclusivity, a year", "exclusivity.months", 12),
        # territories
        ("UK & Ireland", "territories.*.code", ["GB", "IE"]),
        ("DACH", "territories.*.code", ["DE", "AT", "CH"]),
        ("worldwide excl. US", "territories.*.code", ["world", "-US"]),
        ("uk/ie/za", "territories.*.code", ["GB", "IE", "ZA"]),
        ("exclusive no", "exclusivity.exclusive", False),
        ("exclusivity: no", "exclusivity.exclusive", False),
        # placements
        ("paid FB/IG", "placements.*.placement", ["paid social"]),
        ("own website, paid social adverts", "placements.*.placement", ["own website", "paid social"]),
        ("paid social + instagram", "placements.*.placement", ["paid social", "organic social"]),
        ("website + flyer", "placements.*.placement", ["own website", "brochure"]),
        ("ear cuffs (2 pr)", "placements", []),
        ("credit required for press use", "placements", []),
        ("OOH + POS", "placements.*.placement", ["out of home", "point of sale"]),
        ("insta paid", "placements.*.placement", ["paid social"]),
        ("must not show any labels", "placements", []),
        # people
        ("he's 16", "people.minors", True),
        ("he's 16, out of school at three", "permissions.*.code", ["guardian", "council licence"]),
        ("Models: 1 female, 2 male", "people.entries.0.count", 3),
        ("teenager aboard (the owner's, 15)", "people.entries.0.age", 15),
        ("2 kids from the youth squad (11 and 13, parents come)", "people.entries.0.ages", [11, 13]),
        ("model: grandmother of the founder, 78", "people.entries.*.age", [78]),
        ("5 stories: nurse, gardener, volunteer", "people.entries.*.who", ["nurse", "gardener", "volunteer"]),
        ("the model is the weaver's granddaughter, 13", "people.entries.*.who", ["granddaughter"]),
        ("wetsuits: mens, womens, kids", "people.entries", []),
        ("3 action w/ riders", "people.entries.*.who", ["riders"]),
        ("new diver's watch", "people.entries", []),
        ("one of the cast is 15 (chaperone comes)", "people.minors", True),
        ("Exteriors (4), interiors (8)", "people.minors", False),
        ("Their son Otis might run along the beach - 8 yrs old", "people.entries.*.age", [8]),
        ("models: family of 4, kids 5 & 9", "people.entries.*.count", [4, 2]),
        ("the lad who does deliveries is 17", "people.entries.*.age", [17]),
        ("a skateboarder, he's 15", "people.entries.*.age", [15]),
        ("her kids 4 and 6 might appear", "people.entries.0.ages", [4, 6]),
        ("her kids 4 and 6 might appear", "people.entries.0.count", 2),
        ("4 models, two men two women", "people.entries.*.count", [4]),
        ("some line\nreal customers, four of them", "people.entries.*.count", [4]),
        ("ballet dancers, 3, all over 18", "people.entries.*.count", [3]),
        # products
        ("balm 50g, mist 100 ml", "products.0.sizes", ["50g"]),
        ("30 saris on mannequin, front+back", "products.0.quantity", 30),
        ("vest in rust and slate, sizes S-XL", "products.0.sizes", ["s-xl"]),
        (
            "new 12 litre pack, burnt orange, plus the 5 litre vest in slate",
            "products.*.product",
            ["12 litre pack", "5 litre vest"],
        ),
        ("new 12 litre pack, burnt orange, plus the 5 litre vest in slate", "products.*.quantity", [None, None]),
        (
            "new 12 litre pack, burnt orange, plus the 5 litre vest in slate",
            "products.*.sizes",
            [["12 litre"], ["5 litre"]],
        ),
        (
            "3 SKUs: front light, rear light, helmet lamp",
            "products.*.product",
            ["front light", "rear light", "helmet lamp"],
        ),
        ("rings (3)", "products.0.quantity", 3),
        # places
        ("lookbook\nSix looks. Scottish hills, wild camp.", "locations.*.location", ["scottish hills"]),
        ("some line\nthe founder lives by the sea", "locations", []),
        ("some line\non the train home he said", "locations", []),
        ("quiet industrial estate, private", "locations.*.location", ["industrial estate"]),
        ("not smiling in the dark ones", "hazards", []),
        ("hard rim light, sparks of colour", "hazards", []),
        ("beach at Camber", "hazards.*.code", ["tide"]),
        ("on the common, council land", "permissions.*.code", ["permit"]),
        ("Shoot in Lisbon", "locations.*.location", ["lisbon"]),
        ("meet 4.30am at the harbour", "locations.*.location", ["harbour"]),
        # mood
        ("dark, quiet, window light", "mood", "dark"),
        ("natural light only", "mood", "bright"),
        # wishes, negatives
        ("no tripods on the track", "negatives.*.text", ["no tripods on the track"]),
        ('new campaign - "no excuses"', "negatives", []),
        ("instagram and maybe flyers", "wishes.*.text", ["maybe flyers"]),
        # words
        ("leave room top left for the strapline", "copy_space.0.purpose", "strapline"),
        ("the founder signs off, her brother holds the purse", "payers.0.text", "her brother"),
        ("Paid by the levy board, who also sign off", "approvers.0.text", "the levy board"),
        ("finance (Lena) pays", "payers.0.text", "finance"),
        ("They can only pay expenses", "payers", []),
        ("same as last year's job", "references.0.reason", "last_year"),
        ("founder signs off, her brother Col holds the purse", "payers.0.text", "her brother Col"),
        ("Approvals: brand director (Helen); invoices to the agency", "approvers.*.text", ["brand director (Helen)"]),
        ("Approvals: brand director (Helen); invoices to the agency", "payers.*.text", ["the agency"]),
        ("sign off: brand mgr. invoice: head office", "approvers.*.text", ["brand mgr"]),
        ("sign off: brand mgr. invoice: head office", "payers.*.text", ["head office"]),
        ("sign off: brand mgr. invoice: head office", "locations", []),
        # corrections
        ("budget 4k then corrected himself, 4.5k excl VAT", "money.*.amount", [4500]),
        ("4 locations?? no, 2", "counts.0.corrects", [[0, 11]]),
        ("worldwide excl. US, no, just UK", "territories.*.code", ["GB"]),
    ],
)
def test_a_phrase(text: str, path: str, value: Any) -> None:
    assert at(data(text), path) == value


@pytest.mark.parametrize(
    ("text", "country", "path", "value"),
    [
        ("shoot 6/12 or 6/13", "US", "dates.0.any_of", ["2026-06-12", "2026-06-13"]),
        ("shoot 6/12", "GB", "dates.0.from", "2026-12-06"),
        ("budget 2k", "US", "money.0.currency", "USD"),
        ("Budget 6500 euro ex btw", "NL", "money.0.tax", "excluded"),
        ("€ 7.500 zzgl. MwSt.", "AT", "money.0.amount", 7500),
        ("CHF 6'800, excl. VAT", "CH", "money.0.amount", 6800),
        ("delivery by 05.12.2026", "AT", "dates.0.by", "2026-12-05"),
        ("before Thanksgiving", "US", "dates.0.before", "2026-11-26"),
        ("before the May Day bank holiday", "GB", "dates.0.before", "2027-05-03"),
    ],
)
def test_a_phrase_by_country(text: str, country: str, path: str, value: Any) -> None:
    assert at(data(text, country=country), path) == value


def test_the_day_of_the_call_itself_is_no_day_of_the_shoot() -> None:
    assert data("Tel w. Olu 14/5 - barbershop", called=CALLED)["dates"] == []
    assert [d["from"] for d in data("Tel w. Olu 14/5 - barbershop", called=date(2026, 5, 1))["dates"]] == ["2026-05-14"]


def test_days_pencilled_together_stay_together() -> None:
    """The demo's own call, on the 18th: neither day is the day of the call, nor does the second jump back."""
    found = data("pencil the 17th, second option the 18th", called=date(2026, 10, 18))["dates"]
    assert [entry["any_of"] for entry in found] == [["2026-11-17", "2026-11-18"]]
