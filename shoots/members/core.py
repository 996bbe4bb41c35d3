"""The roles of a studio."""

from enum import StrEnum


class Role(StrEnum):
    """What somebody may do: everything; all but settings, members and books; their own shoots; the money."""

    OWNER = "OWNER"
    PRODUCER = "PRODUCER"
    CREW = "CREW"
    BOOKKEEPER = "BOOKKEEPER"


EVERYBODY = frozenset(Role)
PLANNERS = frozenset({Role.OWNER, Role.PRODUCER})
PRICES = frozenset({Role.OWNER, Role.PRODUCER, Role.BOOKKEEPER})
BOOKS = frozenset({Role.OWNER, Role.BOOKKEEPER})
OWNER = frozenset({Role.OWNER})
