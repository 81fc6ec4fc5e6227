"""An attempt at a practice job: who, which variant, what was decided, and how many hints it took.

It comes by mail or through a shared folder, so nothing in it is trusted: it holds texts and picks,
and what is right is never read from it.
"""

from __future__ import annotations

import dataclasses
import datetime
from dataclasses import dataclass, field
from typing import Annotated, Literal

from coilwright.job.fields import STRICT, between, text_between
from coilwright.values.digest import digest

MOST_SEED = 999_999
"""The largest number of a variant."""
_MOST_DECISIONS, _MOST_CHANGES = 60, 1_000
_MOST_PICKS = 60
_Name = Annotated[str, text_between(0, 80)]
_Line = Annotated[str, text_between(0, 300)]


@dataclass(frozen=True, kw_only=True, slots=True)
class Response:
    """What somebody decided.

    text: a number as it was typed. picks: the options picked, by their keys. why: the reason in
    their own words; the trainer reads it, nothing judges it. hints: how many were taken;
    hinted: of those that were of one thing to find its option, hint by hint.
    """

    __pydantic_config__ = STRICT

    text: _Line = ""
    picks: tuple[_Name, ...] = ()
    why: _Line = ""
    hints: Annotated[int, between(0, 99)] = 0
    hinted: tuple[_Name, ...] = ()

    def __post_init__(self) -> None:
        if len(self.picks) > _MOST_PICKS:
            raise ValueError(f"{len(self.picks)} picks are more than any decision has")
        if len(self.hinted) > self.hints:
            raise ValueError(f"hints on {len(self.hinted)} things, and {self.hints} were taken")

    @property
    def is_given(self) -> bool:
        """Whether anything was decided."""
        return bool(self.text.strip() or self.picks)


@dataclass(frozen=True, kw_only=True, slots=True)
class Attempt:
    """One person's attempt at one variant of a practice job.

    practice: the practice job's key. seed: the number of its variant. fingerprint: of what the
    variant said when it was begun (`job.practice.fingerprint`). handed_in: when; None while it is
    being worked on. minutes: how long it was worked on. responses: by the decision's key. changes:
    what was changed in the job itself, by answer; of what was typed in words nothing is kept.
    before: how many attempts at the same variant were begun by the same name before, in the data
    folder that it was made in.
    key_opened: when the key, or somebody else's review of the same variant, was opened last before
    it was handed in, in the data folder that it was made in; None where neither was, or nobody
    knows.
    checksum: of all of it as it was handed in. It tells a slip or a plain edit and proves nothing:
    whoever runs this program can make another.
    """

    __pydantic_config__ = STRICT

    format: Literal["coilwright-attempt"] = "coilwright-attempt"
    version: Literal[2] = 2
    practice: Annotated[str, text_between(1, 80)]
    seed: Annotated[int, between(0, MOST_SEED)] = 0
    fingerprint: _Name = ""
    name: _Name = ""
    begun: datetime.datetime | None = None
    handed_in: datetime.datetime | None = None
    minutes: Annotated[int, between(0, 100_000)] = 0
    responses: dict[str, Response] = field(default_factory=dict)
    changes: dict[_Name, _Line] = field(default_factory=dict)
    before: Annotated[int, between(0, 9_999)] = 0
    key_opened: datetime.datetime | None = None
    checksum: _Name = ""

    def __post_init__(self) -> None:
        if len(self.changes) > _MOST_CHANGES:
            raise ValueError(f"{len(self.changes)} changes are more than any job has answers")
        if len(self.responses) > _MOST_DECISIONS:
            raise ValueError(f"{len(self.responses)} decisions are more than any practice job asks")

    @property
    def timed(self) -> bool:
        """Whether it is known how long it took: of answers typed in from paper it is not."""
        return self.begun is not None

    @property
    def hints(self) -> int:
        """How many hints were taken."""
        return sum(response.hints for response in self.responses.values())

    def response(self, decision: str) -> Response:
        """What was decided; an empty response where nothing was."""
        return self.responses.get(decision, Response())

    def respond(self, decision: str, response: Response) -> Attempt:
        """The attempt with a decision made, or changed."""
        return dataclasses.replace(self, responses={**self.responses, decision: response})

    def hand_in(self, when: datetime.datetime) -> Attempt:
        """The attempt as it is handed in. when: with its time zone, as `begun` is."""
        minutes = self.minutes
        if self.begun is not None and self.begun.tzinfo is not None and when.tzinfo is not None:
            minutes = max(0, min(100_000, round((when - self.begun).total_seconds() / 60)))
        made = dataclasses.replace(self, handed_in=when, minutes=minutes)
        return dataclasses.replace(made, checksum=content_checksum(made))

    @property
    def is_as_handed_in(self) -> bool:
        """Whether nothing in it was changed since it was handed in, as far as a checksum tells."""
        return self.handed_in is not None and self.checksum == content_checksum(self)


def content_checksum(attempt: Attempt) -> str:
    """A checksum of all that stands in an attempt, but of itself."""
    days = [None if day is None else day.isoformat() for day in (attempt.begun, attempt.handed_in)]
    responses = sorted(
        (key, one.text, one.picks, one.why, one.hints, *((one.hinted,) if one.hinted else ()))
        for key, one in attempt.responses.items())
    content = (attempt.practice, attempt.seed, attempt.fingerprint, attempt.name, days,
               attempt.minutes, responses,
               *((sorted(attempt.changes.items()),) if attempt.changes else ()),
               *((attempt.before,) if attempt.before else ()),
               *((attempt.key_opened.isoformat(),) if attempt.key_opened else ()))
    return digest(repr(content))[:16]
