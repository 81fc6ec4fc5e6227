"""A run as a crew reckons it that cuts to the lengths that are printed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from coilwright.plan.coils.run import RunBatch, RunCoil, RunRow
from coilwright.units import System
from coilwright.values.rounding import read_to_cut


@dataclass(frozen=True, slots=True)
class RowAsCut:
    """A row of a run; so_far: strip used when it is done, thread-up included; left: what is then
    left on the coil, tail included [in]."""

    batch: RunBatch
    row: RunRow
    so_far: float
    left: float


def rows_as_cut(coil: RunCoil, system: System) -> Iterator[RowAsCut]:
    """The rows of a coil: each row less the next one's panels is what the next one says."""
    so_far = left = None
    for batch in coil.batches:
        each = read_to_cut(batch.cut.length, system)
        for row in batch.rows:
            whole = row.count * batch.cut.length
            if so_far is None or left is None:
                so_far = read_to_cut(row.so_far - whole, system)
                left = read_to_cut(row.left + whole, system)
            so_far, left = so_far + row.count * each, left - row.count * each
            yield RowAsCut(batch, row, so_far, left)
