"""Whether a shot's words about who is in it name somebody.

References
----------
Own reading.
"""

from __future__ import annotations


def is_named(text: str, name: str) -> bool:
    """Return whether a text names somebody, by their whole name or by the first.

    Parameters
    ----------
    text : str
        As it stands on the shot list: "Leo", "Leo and the dog".
    name : str
        Somebody's name.

    Returns
    -------
    bool
        True also for another person of the same first name: rather one too many on a sheet than one too few.

    References
    ----------
    Own reading.

    Examples
    --------
    >>> is_named("Leo, from behind", "Leo Strand"), is_named("Leonie", "Leo Strand")
    (True, False)
    """
    whole = " ".join(name.casefold().split())
    if not whole:
        return False
    said = " ".join(text.casefold().split())
    words = "".join(c if c.isalnum() or c in "'’-" else " " for c in said).split()
    own = ("'s", "’s")
    bare = {word.removesuffix(own[0]).removesuffix(own[1]) for word in words}
    return whole in said or whole.split()[0] in bare
