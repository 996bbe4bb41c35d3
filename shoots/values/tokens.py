"""Tokens for links: recomputed whenever a link is shown or mailed, never stored."""

from __future__ import annotations

import base64
import hashlib
import hmac


def token_for(nonce: str, *, secret: str) -> str:
    """Return the token of a link: HMAC-SHA-256 of its nonce, cut to 160 bits, in URL-safe letters.

    Parameters
    ----------
    nonce : str
        The link's own random value, at least 128 bits of it.
    secret : str
        The installation's secret.

    Returns
    -------
    str
        27 characters.

    References
    ----------
    .. [1] NIST FIPS 198-1, The Keyed-Hash Message Authentication Code, 2008.

    Examples
    --------
    >>> len(token_for("5f0c", secret="s"))
    27
    """
    digest = hmac.new(f"link:{secret}".encode(), nonce.encode(), hashlib.sha256).digest()[:20]
    return base64.urlsafe_b64encode(digest).decode().rstrip("=")


def fingerprint(token: str) -> str:
    """Return what is stored of a token: its SHA-256 in hexadecimal.

    Parameters
    ----------
    token : str
        As it stands in the link.

    Returns
    -------
    str
        64 characters.

    References
    ----------
    .. [1] NIST FIPS 180-4, Secure Hash Standard, 2015.

    Examples
    --------
    >>> fingerprint("a")[:8]
    'ca978112'
    """
    return hashlib.sha256(token.encode()).hexdigest()
