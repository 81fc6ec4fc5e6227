"""The mark by which a text is known again."""

from __future__ import annotations


def digest(text: str | bytes) -> str:
    """The SHA-256 of a text, in hexadecimal (FIPS 180-4). Half a surrogate pair counts as it is.

    Example:
        >>> digest("abc")[:16]
        'ba7816bf8f01cfea'
    """
    # Where the system's library of ciphers is loaded, it takes longer than all the marks that a
    # session makes; nothing on the first screen needs one.
    import hashlib

    content = text.encode("utf-8", "surrogatepass") if isinstance(text, str) else text
    return hashlib.sha256(content).hexdigest()
