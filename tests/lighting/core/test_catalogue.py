"""What a photographer would ask for is in the list."""

import pytest

from shoots.lighting.core.catalogue import FUNCTIONS, SYNONYMS

NAMES = [function.__name__ for function in FUNCTIONS]


def test_no_name_stands_for_two_things() -> None:
    assert len(set(NAMES)) == len(NAMES)


@pytest.mark.parametrize(
    "topic",
    [
        # Each topic of the shared check table, by a quantity that its first case needs.
        "exposure_value", "flash_f_number", "depth_of_field", "mired_from_kelvin", "sun_position", "wind_load",
        "pops_per_charge", "apparent_angle", "largest_crop",
    ],
)  # fmt: skip
def test_every_topic_of_the_check_table_is_there(topic: str) -> None:
    assert topic in NAMES


def test_what_a_word_may_mean_is_in_the_list() -> None:
    assert {key for keys in SYNONYMS.values() for key in keys} <= set(NAMES)


def test_only_public_functions_of_cores_are_listed() -> None:
    for function in FUNCTIONS:
        assert not function.__name__.startswith("_")
        assert ".core." in function.__module__ or function.__module__.startswith("shoots.values.")
