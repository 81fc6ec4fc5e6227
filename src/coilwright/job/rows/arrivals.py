"""Changes to the list of coils that arrived. Each returns a new job; the old one stays as it was.

What was typed for a coil and could not be read lies in the job beside that of the answers, under
`arrived.0.width`; it follows its coil. All raise IndexError for a coil not there.
"""

from __future__ import annotations

import dataclasses

from coilwright.job.job import Job
from coilwright.job.plain_name import plain_name
from coilwright.job.receiving import TYPED, Arrival, stand_in_tag
from coilwright.job.rows.place import RowPlace

ARRIVALS: RowPlace[Arrival] = RowPlace(
    TYPED, lambda job: job.arrived,
    lambda job, arrived: dataclasses.replace(job, arrived=arrived),
)
"""Where the coils that arrived live in a job."""

add, replace, delete = ARRIVALS.add, ARRIVALS.replace, ARRIVALS.delete


def new_arrival(job: Job, ordered: int | None = None) -> Arrival:
    """The next coil: a tag that no other has, meant to be the first coil not yet there.

    ordered: how many coils are, where that is known; one more than those is meant to be none.
    """
    tags = {plain_name(a.tag) for a in job.arrived}
    number = len(job.arrived) + 1
    while stand_in_tag(number).casefold() in tags:
        number += 1
    # What comes in place of a refused one is the same coil of the order.
    there = {a.coil for a in job.arrived if not a.is_gone}
    most = 999 if ordered is None else ordered
    coil = next((n for n in range(1, most + 1) if n not in there), None)
    return Arrival(tag=stand_in_tag(number), coil=coil)
