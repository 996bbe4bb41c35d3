"""Which number calls an ambulance, by country.

References
----------
.. [1] 112 in the European Union: Directive (EU) 2018/1972 (European Electronic Communications Code) Art. 109.
.. [2] 999 and 112 in the United Kingdom: Ofcom General Conditions, emergency organisations (from memory); Ireland
   keeps 999 beside 112.
"""

from __future__ import annotations

from shoots.rights.core.territories import GROUPS, TerritoryGroup

_OWN: dict[str, tuple[str, ...]] = {"GB": ("999", "112"), "IE": ("112", "999")}


def emergency_numbers(country: str) -> tuple[str, ...]:
    """Return the numbers that call an ambulance.

    Parameters
    ----------
    country : str
        Two letters of ISO 3166.

    Returns
    -------
    tuple[str, ...]
        The one to dial first comes first; empty where this table knows none, so that the sheet says so instead
        of guessing.

    References
    ----------
    See the module.

    Examples
    --------
    >>> emergency_numbers("GB"), emergency_numbers("FR"), emergency_numbers("US")
    (('999', '112'), ('112',), ())
    """
    code = country.upper()
    return _OWN.get(code, ("112",) if code in GROUPS[TerritoryGroup.EU] else ())
