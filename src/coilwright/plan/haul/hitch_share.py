"""Whether the usual share of a loaded trailer rests on its hitch, and what to do where not."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import haul as calc
from coilwright.job.answers.haul import HaulKey
from coilwright.plan.view import View, care
from coilwright.units import System
from coilwright.values.finding import Finding
from coilwright.values.keys import Key

_SLACK = 1e-9


def check_hitch_share(view: View, where: tuple[str, ...]) -> Iterator[Finding]:
    """What rests on the hitch, where that is not the usual share. where: the answers it hangs on.
    """
    least, most = view.value(Key.HAUL_SHARE_LEAST), view.value(Key.HAUL_SHARE_MOST)
    if least is None or most is None:
        return
    outside = [
        (share, key) for key in (Key.HAUL_HITCH_SHARE, Key.HAUL_HITCH_SHARE_WORKED)
        if (share := view.value(key)) is not None
        and not least * (1 - _SLACK) <= share <= most * (1 + _SLACK)
    ]
    if not outside:
        return
    share, key = outside[0]
    weighed = view.value(HaulKey.TONGUE_WEIGHT) is not None
    how = "" if key == Key.HAUL_HITCH_SHARE and weighed else ", from where things sit"
    in_metric = view.job.units is System.METRIC
    elsewhere = (
        " That share is US practice: where trailers are built for less on the hitch, the plates of "
        "trailer, hitch and vehicle say how much it has to be and may be."
        if in_metric else "")
    yield care(
        "haul.hitch_share",
        f"{view.text(key)} of the loaded trailer rests on the hitch{how}; "
        f"{'in the US ' if in_metric else ''}usual on a {view.job.haul.hitch} is "
        f"{view.text(Key.HAUL_SHARE_LEAST)} to {view.text(Key.HAUL_SHARE_MOST)}.",
        ("Too little on the hitch makes a trailer sway." if share < least
         else "Too much on the hitch takes weight off the wheels that steer and brake.")
        + elsewhere,
        _balance(view, share < least),
        calc.BAND, *where, HaulKey.HITCH,
    )


def _balance(view: View, is_light: bool) -> str:
    """What to do about too little or too much on the hitch. What goes forward has to stay inside
    what the hitch may carry, and where trailers are built for less there may be nothing to do."""
    if not is_light:
        return ("Move coils or gear back, weigh again, and go by the plates and manuals of "
                "vehicle, hitch and trailer.")
    if view.job.units is System.METRIC:
        return ("See what the plates and manuals of vehicle, hitch and trailer want on the hitch. "
                "Only where that is more, move coils or gear forward, inside what the hitch may "
                "carry, and weigh again.")
    return ("Move coils or gear forward, inside what the hitch may carry, weigh again, and go by "
            "the plates and manuals of vehicle, hitch and trailer.")
