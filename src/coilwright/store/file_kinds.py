"""What a file is that is not the one that is wanted, in words for whoever named it."""

from __future__ import annotations

_KINDS = {
    "coilwright-job": "a job", "coilwright-attempt": "an attempt",
    "coilwright-machine": "a machine", "coilwright-shop": "a shop",
    "coilwright-shared-shop": "a shop to be shared", "coilwright-stock": "a list of coils on hand",
    "coilwright-practice": "a practice job", "coilwright-sealed-practice": "a practice job, sealed",
    "coilwright-summary": "a summary",
}


def other_kind(found: object, wanted: str) -> str:
    """What a file of one format is instead of another; empty where it says no format of ours.

    >>> other_kind("coilwright-job", "coilwright-attempt")
    'is a job, not an attempt'
    >>> other_kind("a-song", "coilwright-attempt")
    ''
    """
    if not isinstance(found, str) or found not in _KINDS:
        return ""
    return f"is {_KINDS[found]}, not {_KINDS.get(wanted, f'a {wanted} file')}"


def no_data(text: str, wanted: str) -> str:
    """What a text is that was never one of our files; empty where it may be one, damaged.

    >>> no_data("<!doctype html>", "coilwright-attempt")
    'is a page to read or print, not an attempt'
    >>> no_data('{"format": "coil', "coilwright-attempt"), no_data("", "coilwright-attempt")
    ('', '')
    """
    if not text.lstrip("\ufeff \t\r\n").startswith("<"):
        return ""
    return f"is a page to read or print, not {_KINDS.get(wanted, f'a {wanted} file')}"
