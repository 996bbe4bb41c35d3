"""Names of files that came from somebody else's machine.

Source: IEEE Std 1003.1-2017, 3.282 Portable Filename Character Set, widened by letters of every script.
"""

from __future__ import annotations

import re
import unicodedata

_UNSAFE = re.compile(r'[\x00-\x1f\x7f<>:"/\\|?*]+')


def safe_name(file_name: str) -> str:
    """Return a file's own name without folders, control characters or what a file system refuses.

    Parameters
    ----------
    file_name : str
        As uploaded.

    Returns
    -------
    str
        1 to 120 characters, its ending kept.

    References
    ----------
    .. [1] IEEE Std 1003.1-2017, 3.282 Portable Filename Character Set, widened by letters of every script.

    Examples
    --------
    >>> safe_name("../../etc/rim: final?.jpg")
    'rim final.jpg'
    """
    base = unicodedata.normalize("NFC", file_name).replace("\\", "/").rpartition("/")[2]
    base = re.sub(r"\s+", " ", _UNSAFE.sub("", base)).strip(" .")
    stem, dot, ending = base.rpartition(".")
    if not dot:
        stem, ending = base, ""
    stem = stem.strip(" .")[:110] or "picture"
    return f"{stem}.{ending[:8]}" if ending else stem
