"""The pieces of trim, and how their blanks lie side by side on the metal."""

from __future__ import annotations

from coilwright.trim import TrimPiece
from coilwright.units import Kind, show
from coilwright.wizard.literal import fit, pad
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.text_block import TextBlock


class TrimBlock(TextBlock):
    """A line a piece, then a line a row of blanks, for whoever stands at the brake."""

    title = "Pieces and blanks"

    def lines(self, session: Session, width: int) -> list[str]:
        """Pieces with girth and count; by metal, how the rows are cut and what is left."""
        plan, system = session.plan, session.job.units
        pieces = session.job.trim.pieces
        if not pieces:
            return ["No trim is on this job. The job's file takes pieces under “trim”."]
        rows = {row.number: row for row in plan.trim}
        made = []
        for number, piece in enumerate(pieces, 1):
            row = rows.get(number)
            size = "not worked out yet" if row is None else (
                f"girth {row.girth.text(system)}, {row.count.text(system)} of "
                f"{row.blank.text(system)}"
            )
            made.append(fit(f"{pad(piece.name, 20)} {_on(piece)}: {size}", width))
        for nest in plan.nests:
            made.append("")
            count = (
                f"{nest.rows.text(system)} rows" if nest.sheets is None
                else f"{nest.sheets.text(system)} sheets"
            )
            head = f"{nest.made_from}, {nest.width.text(system)} wide: {count}"
            made.append(fit(f"{head}, drop {nest.drop.text(system)}", width))
            for pattern in nest.patterns:
                across = " + ".join(
                    f"{n} × {pieces[number - 1].name}" for number, n in pattern.across
                )
                left = show(pattern.drop, Kind.WIDTH, system)
                made.append(fit(f"  {pattern.times} rows: {across}; {left} left", width))
        return made


def _on(piece: TrimPiece) -> str:
    return str(piece.kind) if piece.kind else "elsewhere"
