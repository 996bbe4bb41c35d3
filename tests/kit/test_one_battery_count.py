"""How many batteries there are was said in two places; the migration to one keeps the number that counted."""

from __future__ import annotations

import pytest
from django.db import connection
from django.db.migrations.executor import MigrationExecutor

BEFORE, AFTER = ("shoots", "0007_light_kit"), ("shoots", "0008_one_battery_count")


@pytest.fixture
def before(transactional_db):
    """The tables as they were; afterwards they are as they are."""
    executor = MigrationExecutor(connection)
    executor.migrate([BEFORE])
    yield executor.loader.project_state([BEFORE]).apps
    executor = MigrationExecutor(connection)
    executor.migrate(executor.loader.graph.leaf_nodes())


def test_the_number_that_counted_is_the_one_that_stays(before) -> None:
    studio = before.get_model("shoots", "Studio").objects.create(name="Studio")
    lamps, batteries = before.get_model("shoots", "Lamp"), before.get_model("shoots", "Battery")

    def lamp(name, **fields):
        return lamps.objects.create(studio=studio, name=name, **fields)

    typed = lamp("typed", batteries=4, full_pops=350)
    both = lamp("both", batteries=2, full_pops=None)
    rows = lamp("rows", batteries=None, full_pops=None)
    none = lamp("none", batteries=0, full_pops=400)
    silent = lamp("silent", batteries=None, full_pops=400)
    batteries.objects.create(studio=studio, name="Of both", lamp=both, quantity=5, full_pops=300)
    batteries.objects.create(studio=studio, name="Old", lamp=rows, quantity=2, full_pops=150)
    batteries.objects.create(studio=studio, name="New", lamp=rows, quantity=1, full_pops=200)
    batteries.objects.create(studio=studio, name="Any", quantity=9, full_pops=100)

    executor = MigrationExecutor(connection)
    executor.migrate([AFTER])
    now = executor.loader.project_state([AFTER]).apps.get_model("shoots", "Lamp").objects.select_related("battery")

    def counted(one):
        found = now.get(pk=one.pk)
        battery = found.battery
        return (battery and (0 if battery.put_away_at else battery.quantity)), found.full_pops

    # What a light said went before what its batteries said; several kinds counted together, by the weakest.
    assert counted(typed) == (4, 350)
    assert counted(both) == (2, 300)
    assert counted(rows) == (3, 150)
    assert counted(none) == (0, 400)
    assert counted(silent) == (None, 400)
    assert "The light said 2, the bag 5." in now.get(pk=both.pk).battery.note
    kinds = executor.loader.project_state([AFTER]).apps.get_model("shoots", "Battery").objects
    assert kinds.filter(name="New").exclude(put_away_at=None).get().note == "Counted with Old."
    assert kinds.filter(name="Any", put_away_at=None, lamps=None).exists()

    executor = MigrationExecutor(connection)
    executor.migrate([BEFORE])
    again = executor.loader.project_state([BEFORE]).apps.get_model("shoots", "Lamp").objects
    assert {one.name: one.batteries for one in again.all()} == {
        "typed": 4, "both": 2, "rows": 3, "none": 0, "silent": None,
    }  # fmt: skip
