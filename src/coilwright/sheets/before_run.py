"""What stands before the lists of a run: what is done first, who carries, how to read them."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc.run import long_panel
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.choices import YesNo
from coilwright.plan.coils.run import Run
from coilwright.plan.panel.ends import has_ripped
from coilwright.plan.result import Plan, PlanePlan
from coilwright.sheets.blocks import (
    Block,
    Inline,
    Text,
    bullets,
    heading,
    joined,
    line,
    paragraph,
    room,
    stacked,
    strong,
    table,
)
from coilwright.sheets.names import answer_text, figure_text
from coilwright.sheets.parts import (
    alike_planes,
    bare_ends_words,
    bare_words,
    both_ends,
    cut_length,
)
from coilwright.units import Kind, in_thousands, show_round
from coilwright.values.keys import Key
from coilwright.words import cautions, words

WIDE, NARROW, LENGTH = 18, 10, 16
"""Letters of room to write a name, a number, and a length."""


def before_run(plan: Plan) -> Iterator[Inline]:
    """What is done by hand before the run: common practice, no source."""
    yield "Trailer level, jacks down, wheels chocked: before a coil is put on the rack."
    yield "Emergency stop tried; guards on."
    system = plan.job.units
    strip = plan.figures.get(Key.STRIP_WIDTH)
    if strip is not None:
        yield line("Strip measured: ", figure_text(strip, system), " ordered; found ",
                   room(NARROW), ".")
    yield line("One panel run and measured: coverage ", answer_text(plan.job, PanelKey.COVERAGE),
               ", found ", room(NARROW), "; leg ", answer_text(plan.job, PanelKey.LEG), ", found ",
               room(NARROW), ". Adjust the machine before going on.")
    yield line("Its length: set ", room(LENGTH), ", found ", room(LENGTH), ".")
    yield line("Asked and agreed: which leg lies left on the roof ", room(NARROW), ", which end "
               "leaves the machine first ", room(NARROW), ", painted side up or down "
               if plan.job.metal.may_be_painted else "", room(NARROW)
               if plan.job.metal.may_be_painted else "", ".")
    film = ", film off as it goes on" if plan.job.metal.film is YesNo.YES else ""
    yield f"On every panel as it comes off: plane, number, eave end{film}."


def run_cautions() -> list[str]:
    """The cautions of the machine and of carrying, each once."""
    said = (*cautions("machine"), words(CoilsKey.CARRY).caution)
    return [one for one in dict.fromkeys(said) if one]


def how_to_read(plan: Plan, run: Run) -> tuple[Block, ...]:
    """What the lists below mean, which panels are ripped, and what to do with a bad one."""
    if not run.coils:
        return ()
    system = plan.job.units
    angled = any(piece.low.angle != 0.0 or piece.high.angle != 0.0
                 for coil in run.coils for batch in coil.batches for row in batch.rows
                 for piece in row.pieces)
    allowance = plan.figures[PanelKey.END_ALLOWANCE]
    ends = [line(f"{', '.join(one.name for one in same)}: ",
                 both_ends(plan, same[0]))
            for same in planes_cut(plan, run) if has_ripped(same[0], plan.job.panel.coverage)]
    bare = [f"{', '.join(one.name for one in same)} at its {which}"
            for same in planes_cut(plan, run) if (which := bare_ends_words(same[0]))]
    used = {batch.cut.plane for coil in run.coils for batch in coil.batches}
    several = [plane for plane in plan.planes if plane.alike > 1 and plane.number in used]
    return stacked(
        heading(2, "How to read the lists"),
        bullets(filter(None, (
            line("Length is the blank as run, its longer side: the slope, the end allowance of ",
                 figure_text(allowance, system), ", rounded up."),
            line("Short side: the other edge once the ends are cut, legs not counted. Angles are "
                 "from square; lower is the eave's end. Rising: the right edge is the longer one, "
                 "falling: the left one, seen from the eave, looking up. A shaped end is marked on "
                 "the roof.") if angled else (),
            line(strong("End panels,"), " run as wide as the others, are ripped on the roof where "
                 "they are narrower: ", joined(ends, "; "), ".") if ends else (),
            line(strong("Bare ends:"), f" {'; '.join(bare)}: {bare_words(plan)}.") if bare else (),
            *(line(f"{plane.name}: {plane.alike} planes alike. On the roof, ", joined(
                [line(f"{copy} of {plane.alike} is ", room(LENGTH))
                 for copy in range(1, min(plane.alike, _COPIES) + 1)]), ".") for plane in several),
            line(strong("A bad panel:"), " stop, and put right what spoiled it before the next. "
                 "Mark it, and cut a shorter one of the list out of it where that goes. What each "
                 "coil has for panels run again stands under its list: ask before it is used up."),
        ))),
    )


_COPIES = 4
"""Planes alike that have room to say which is which."""


def planes_cut(plan: Plan, run: Run) -> list[list[PlanePlan]]:
    """The planes that coils are cut for, alike ones together."""
    used = {batch.cut.plane for coil in run.coils for batch in coil.batches}
    return [same for same in alike_planes(plan)
            if used.intersection(one.number for one in same)]


def carrying(plan: Plan, run: Run) -> tuple[Block, ...]:
    """Panels by length: what each weighs, and who carries it."""
    if not run.coils:
        return ()
    counts: dict[float, int] = {}
    for coil in run.coils:
        for batch in coil.batches:
            counts[batch.cut.length] = counts.get(batch.cut.length, 0) + batch.cut.count
    by_length = {b.cut.length: b for coil in run.coils for b in coil.batches}
    system = plan.job.units
    groups: dict[int, list[float]] = {}
    for length in sorted(counts, reverse=True):
        groups.setdefault(by_length[length].people, []).append(length)

    def said(length: float) -> Text:
        return cut_length(plan, by_length[length].cut.plane, length)

    rows: list[tuple[Inline, ...]] = [
        (strong(f"{people} people") if people > 1 else "one",
         in_thousands(sum(counts[length] for length in lengths), system),
         said(lengths[0]) if lengths[0] == lengths[-1] else line(said(lengths[-1]), " to ",
                                                                 said(lengths[0])),
         figure_text(by_length[lengths[0]].mass, system))
        for people, lengths in groups.items()
    ]
    planes = {plane.number for plane in plan.planes}
    blanks = any(batch.cut.plane not in planes for coil in run.coils for batch in coil.batches)
    return (
        heading(2, "Who carries a panel, or a blank for trim" if blanks else "Who carries a panel"),
        table(("carried by", "pieces" if blanks else "panels", "lengths", "the longest weighs"),
              rows, right=(1, 2, 3)),
        paragraph(
            "One person carries ", figure_text(run.carry, system), " at most, and no panel longer "
            f"than {show_round(long_panel(system), Kind.LENGTH, system)} alone, whatever it weighs "
            "(common practice, no source; your own rules and the wind may ask for more people).",
        ),
    )
