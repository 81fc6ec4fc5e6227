"""Where the first sentence of a text ends: not behind the initial of a name."""

from __future__ import annotations

import re

_END = re.compile(r"(?<!\b[A-Z])\.(?= )")


def first_sentence(text: str) -> str:
    """The first sentence, with its full stop where another one follows or it has one.

    >>> first_sentence("By Bo: R. Dow cuts to it. Put it right.")
    'By Bo: R. Dow cuts to it.'
    >>> first_sentence("Ask them")
    'Ask them'
    """
    end = _END.search(text)
    return text if end is None else text[:end.end()]
