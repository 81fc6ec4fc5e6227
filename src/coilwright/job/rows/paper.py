"""Where the papers of a job live as rows: its requests for a quote, and the head of its order."""

from __future__ import annotations

import dataclasses

from coilwright.job.order import Order
from coilwright.job.requests import TYPED, Request
from coilwright.job.rows.place import RowPlace

REQUESTS: RowPlace[Request] = RowPlace(
    TYPED, lambda job: job.requests,
    lambda job, rows: dataclasses.replace(job, requests=rows),
)
ORDER_HEAD: RowPlace[Order] = RowPlace(
    "order.", lambda job: (job.order,), lambda job, rows: dataclasses.replace(job, order=rows[0]),
)
"""The head of the order is a list of one."""
