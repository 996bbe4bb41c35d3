"""File names of finished pictures: which shot one belongs to, and names that stand once in an archive.

Source: common practice, no source (photographers begin a finished file's name with the number of its shot).
"""

from __future__ import annotations

import re
from collections.abc import Iterable

_NUMBER = re.compile(r"^(?:[a-z]*[-_ ]*)?0*(\d{1,3})(?!\d)", re.IGNORECASE)


def shot_number_in(file_name: str) -> int | None:
    """Return the shot's number that a finished file's name begins with, or None.

    Parameters
    ----------
    file_name : str
        As uploaded: "03-rim.jpg", "shot_3 b.tif".

    Returns
    -------
    int or None
        The number, at least 1; None where the name begins otherwise or with a longer number, as cameras write.

    References
    ----------
    .. [1] Common practice, no source.

    Examples
    --------
    >>> shot_number_in("03-rim of the quarry.jpg"), shot_number_in("shot 12b.tif"), shot_number_in("DSC04211.jpg")
    (3, 12, None)
    """
    found = _NUMBER.match(file_name.strip())
    if found is None or int(found[1]) == 0:
        return None
    return int(found[1])


def without_doubles(names: Iterable[str]) -> list[str]:
    """Return names in the same order, a number added wherever one stands twice (letter case ignored).

    Parameters
    ----------
    names : iterable of str
        File names.

    Returns
    -------
    list of str
        As many, each once.

    References
    ----------
    .. [1] Own derivation, see tests.

    Examples
    --------
    >>> without_doubles(["a.jpg", "A.jpg", "b.jpg"])
    ['a.jpg', 'A (2).jpg', 'b.jpg']
    """
    taken: set[str] = set()
    result = []
    for name in names:
        stem, dot, ending = name.rpartition(".")
        if not dot:
            stem, ending = name, ""
        candidate, count = name, 1
        while candidate.casefold() in taken:
            count += 1
            candidate = f"{stem} ({count}).{ending}" if ending else f"{stem} ({count})"
        taken.add(candidate.casefold())
        result.append(candidate)
    return result
