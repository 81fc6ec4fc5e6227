"""What run sheet and haul card say where the job was changed after its order was sent: lists and
loads are of the job as it is now, the coils that come are those of the order."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.drawing.plane_facts import runs
from coilwright.plan.coils.run import Run
from coilwright.plan.order_limits import heaviest_coil, largest_coil
from coilwright.plan.result import Plan
from coilwright.sheets.baseline import is_on_file
from coilwright.sheets.blocks import Text, line, strong
from coilwright.sheets.told import tells_otherwise
from coilwright.units import Kind, show
from coilwright.values.keys import Key
from coilwright.words.counting import capitalized, counted

_SAME = 1e-6
"""Strip and widths nearer than this [in] are the same."""


def lists_since_sent(plan: Plan, sent: Plan, run: Run) -> Text:
    """Which roof the lists cut, from which coils, and what does not fit; empty where nothing was
    sent, or nothing changed since. sent: the plan of the order as it was sent."""
    last = plan.job.life.latest
    if last is None or not tells_otherwise(plan):
        return ()
    changed = strong(f" Changed since revision {last.revision} was sent:")
    now = " the lists below cut the roof as it is now"
    if not is_on_file(plan):
        return line(changed, f"{now}. Revision {last.revision} is not on file: the coils stand "
                    "here as they would be ordered now, so hold each to its paper order.")
    misfits = [*_misfits(plan, sent, run)]
    fits = ("Each list fits its coil, where that comes as long as it was ordered." if not misfits
            else "")
    return line(changed, f"{now}, from the coils of revision {last.revision}. ",
                strong(f"{capitalized('; '.join(misfits))}.") if misfits else fits,
                " “Changes since it was sent” says what differs.")


def loads_since_sent(plan: Plan, sent: Plan) -> Text:
    """That other coils come than the loads are worked out from; empty where they are the same."""
    last, system = plan.job.life.latest, plan.job.units
    if last is None or not tells_otherwise(plan):
        return ()
    changed = strong(f"Changed since revision {last.revision} was sent:")
    if not is_on_file(plan):
        return line(changed, f" the loads are of the changed job. Revision {last.revision} is not "
                    "on file: read from its paper what its coils weigh. ")
    coming = _at_most(sent)
    if coming == _at_most(plan):
        return ()
    if not coming:
        return line(changed, f" the loads are of the changed job, and revision {last.revision} has "
                    "no coil. ")
    most, across = (show(max(of_all), kind, system) for of_all, kind in zip(
        zip(*coming, strict=True), (Kind.MASS, Kind.WIDTH), strict=True))
    return line(changed, " the loads are of the changed job. ", strong(
        f"The coils that come are of revision {last.revision}: {counted(len(coming), 'coil')}, "
        f"max weight {most}, max OD {across}."),
        " Hold those to the plates, and drive by nothing else. ")


def _at_most(made: Plan) -> list[tuple[float, float]]:
    """Max weight [lb] and max OD [in] of each coil, as the order says them."""
    system = made.job.units
    return [(heaviest_coil(made, coil).as_read(system), largest_coil(made, coil).as_read(system))
            for coil in made.coils]


def _misfits(plan: Plan, sent: Plan, run: Run) -> Iterator[str]:
    """What the coils of the order cannot give the lists, and what of them no list takes."""
    system = plan.job.units
    wide, takes = (made.figures.get(Key.STRIP_WIDTH) for made in (sent, plan))
    if wide is not None and takes is not None and abs(wide.value - takes.value) > _SAME:
        yield (f"the coils were ordered {wide.text(system)} wide and the lists take "
               f"{takes.text(system)}: do not run them")
    listed = {coil.order_number for coil in run.coils}
    for coil in run.coils:
        if not coil.is_sent:
            yield f"coil {coil.order_number} was not ordered: nothing comes for its list"
        elif coil.on_hand is None and coil.left.value < -_SAME:
            yield (f"coil {coil.order_number} is {show(-coil.left.value, Kind.LENGTH, system)} "
                   "short of its list")
    if spare := [coil.number for coil in sent.coils if coil.cuts and coil.number not in listed]:
        yield f"coil{'s' if len(spare) > 1 else ''} {runs(spare)} of the order: in no list"
