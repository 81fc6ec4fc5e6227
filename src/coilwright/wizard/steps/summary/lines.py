"""The lines of the summary: what to buy on top, and below it all else, each of which opens."""

from __future__ import annotations

from collections.abc import Callable

from textual.content import Content
from textual.geometry import Size
from textual.widgets.option_list import Option

from coilwright.drawing.bars import account_lines
from coilwright.job.answers import ANSWERS
from coilwright.job.life import OrderState
from coilwright.job.sending import still_out_words
from coilwright.plan import Plan
from coilwright.plan.ask_first import Effect
from coilwright.plan.questions import Status, against_words
from coilwright.plan.ready import ReasonKind, open_words
from coilwright.sheets.lots_met import lots_words
from coilwright.sheets.names import label, standing, who
from coilwright.sheets.state import hold_words, state_of
from coilwright.values.finding import Level
from coilwright.values.keys import Key
from coilwright.values.standing import Standing
from coilwright.wizard.lists.coil_blocks import offer_line
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.progress import names_of, waiting_for
from coilwright.wizard.screens.base import TALL
from coilwright.wizard.session import Session
from coilwright.wizard.steps.summary.buying import roof_words, to_buy
from coilwright.wizard.steps.summary.chart import Chart, Part
from coilwright.wizard.widgets.columns import cells, hang, left, right
from coilwright.wizard.widgets.results import LEVELS
from coilwright.wizard.widgets.standing_word import TURNS
from coilwright.words import cautions
from coilwright.words.counting import counted
from coilwright.words.in_units import with_units
from coilwright.words.sentences import first_sentence

FIGURES = (
    Key.ROOF_AREA,
    Key.PANELS_COUNT,
    Key.PANELS_LONGEST,
    Key.STRIP_WIDTH,
    Key.STRIP_MASS_PER_LENGTH,
    Key.COIL_COUNT,
    Key.COIL_LENGTH_ORDERED,
    Key.COIL_MASS_ORDERED,
    Key.COIL_LONGEST,
    Key.PANEL_MOVEMENT,
)


class Lines:
    """The lines of a job. Their ids are what they open, and its key (`go:panel.deck`).

    effects: what is ranked. fresh: it is ranked for this plan. room: cells of a line; 0 before it
    is laid out. size: of the screen.
    """

    def __init__(
        self, session: Session, effects: tuple[Effect, ...], fresh: bool, room: int, size: Size
    ) -> None:
        self._plan, self._offer = session.plan, session.offer
        self._effects, self._fresh = effects, fresh
        self._width = max(_NARROWEST, (room or size.width) - 2)
        self._room = room or self._width
        self._airy = size.height >= TALL

    def top(self) -> list[Option]:
        """What to buy, for which roof, and what holds the order."""
        plan = self._plan

        def under(name: str, words: str, style: str = "") -> Content:
            return hang(((left(name, _NAME), "dim"), (words, style)), self._width, _NAME + 1)

        made = [_line("figure", key, under(name, words, "bold"))
                for name, key, words in to_buy(plan)]
        if roof := roof_words(plan):
            made.append(_line("figure", f"{Key.ROOF_AREA}#roof", under("Roof", roof)))
        made.append(_line("held", "", under("State" if plan.ready else "Held by",
                                            _state_words(plan))))
        return made

    def rows(self) -> list[Option]:
        """All else."""
        plan, width = self._plan, self._width
        made: list[Option] = []

        def head(text: str) -> None:
            above = "\n" if made and self._airy else ""
            made.append(Option(Content.styled(f"{above} {text}", "bold"), disabled=True))

        def line(kind: str, key: str, *parts: Part) -> None:
            made.append(_line(kind, key, *parts))

        def sentence(kind: str, key: str, sign: tuple[str, str], *parts: tuple[str, str]) -> None:
            # A long one goes on below its own beginning, not below its sign.
            made.append(_line(kind, key, hang((sign, *parts), width, cells(sign[0]) + 1)))

        places = {id(f): str(i) for i, f in enumerate(plan.findings)}
        if plan.stops:
            head("Stops (Enter says why, and takes on what may be taken on)")
            for finding in plan.stops:
                sentence("stop", places[id(finding)], ("STOP  ", "bold $error"),
                         (escape_controls(finding.what), "bold"),
                         (f" {escape_controls(first_sentence(finding.do))}", ""))
        for reason in plan.reasons:
            if reason.kind is ReasonKind.MISSING:
                # What there is to find in practice may be on any step: its brief says what to do.
                where = ("brief", "practice") if plan.concealed else ("go", "roof.planes")
                sentence(*where, _OPEN, (escape_controls(reason.text), ""))
        if self._offer is not None:
            sentence("take", "", ("FITS  ", "bold"),
                     (f"{offer_line(self._offer, plan.job.units)} Enter takes "
                      f"{'it' if len(self._offer.coils) == 1 else 'them'}.", ""))
        chart = Chart(plan, self._effects, self._room)
        if plan.open_answers or plan.guesses:
            # While somebody practices nothing is ranked: what comes first may be what is asked.
            head("Not answered yet, in the order of the steps" if plan.concealed else
                 chart.heading.lstrip() if self._fresh else "Settle first (ranking them …)")
            for number, (key, parts) in enumerate(self._asks(chart), 1):
                line("go", key, f"{right(str(number), 2)} ", *parts)
        self._questions(head, line, sentence, chart.ask_at)
        for reason in plan.reasons:
            if reason.kind is ReasonKind.HEAD:
                sentence("head", reason.key, _OPEN, (escape_controls(reason.text), ""))
        if settled := plan.readiness.settled:
            head("Taken on knowingly")
            keys = {f.key: places[id(f)] for f in plan.findings}
            for one in settled:
                kind, key = ("finding", keys[one.key]) if one.key in keys else ("question", one.key)
                sentence(kind, key, ("", ""), (escape_controls(one.text), ""))
        accepted = {s.key for s in plan.readiness.settled}
        others = [f for f in plan.findings
                  if f.level is not Level.STOP and f.key not in accepted]
        if others:
            head("Warnings and notes")
            for finding in others:
                sentence("finding", places[id(finding)],
                         (f"{left(finding.level.value.upper(), 5)} ",
                          f"bold {LEVELS[finding.level]}"),
                         (escape_controls(finding.what), ""))
        head("Figures")
        for key in FIGURES:
            figure = plan.figures.get(key)
            if figure is not None:
                line("figure", key, f"{left(figure.label, 32)} {figure.mark or ' '} ",
                     (figure.text(plan.job.units), "bold"))
            elif (lack := plan.lacks.get(key)) is not None:
                # Enter leads to the answer that is named first; where none is, to the rows it is
                # of, or to the step.
                why, first = waiting_for(plan, tuple(k for k in lack.needs if k in ANSWERS))
                words = (f"{why.value} {', '.join(names_of(first)[:3])}" if first
                         else escape_controls(lack.because))
                line("go", f"{next(iter((*first, *lack.needs)), key)}#{key}",
                     hang(((f"{left(lack.label, 32)}   ", ""), (words, "dim")), width, 36))
        line("figures", "", f"Every figure, to be found by name ({len(plan.figures)})  F6")
        if account := account_lines(plan, min(width, _WIDEST)):
            head("Where the metal goes")
            for number, text in enumerate(account):
                line("figure", f"{Key.COIL_MASS_ORDERED}#account{number}", text)
        for caution in cautions("summary", draft=not plan.ready):
            head(hang((("▲ ", ""), (with_units(caution, plan.job.units), "")), width, 3).plain)
        return made

    def _questions(
        self, head: Callable[[str], None], line: Callable[..., None],
        sentence: Callable[..., None], ask_at: int,
    ) -> None:
        """The questions that hold the order, but those that are asked above already."""
        plan, width = self._plan, self._width
        asked = plan.questions
        unsettled = [q for q in asked if not q.status.is_done]
        holding = {r.key for r in plan.reasons if r.kind is ReasonKind.QUESTION}
        # Whom to ask stands in the column that it has in the chart, where that leaves room.
        longest = max((cells(q.who) for q in unsettled if q.key in holding), default=0)
        ask_at = min(max(ask_at, width // 2), width - longest - 2)
        head(f"{left('Questions', ask_at - 1)}ask")
        if held := open_words(plan.readiness):
            sentence("questions", "", ("HOLD  ", "bold"),
                     (f"{held}: an answer settles one, or a waiver with a reason", ""))
        for question in unsettled:
            if question.key in holding:
                ask = with_units(question.words.ask, plan.job.units)
                against = question.status is Status.AGAINST
                sign = "≠ " if against else "? "
                first, *rest = hang(((sign, "bold"), (ask, "")), ask_at - 3, 3).split("\n")
                if against:
                    said = escape_controls(against_words(plan.job, question))
                    rest += hang((("   ", ""), (said, "")), width, 3).split("\n")
                line("question", question.key, first.pad_right(ask_at - 1 - first.cell_length),
                     question.who, *(Content.assemble("\n", one) for one in rest))
        every = f"All {len(asked)} questions, {len(unsettled)} not settled yet; their sheet"
        sentence("questions", "#all", ("F5  ", "bold"), (f"{every} is saved there", ""))

    def _asks(self, chart: Chart) -> list[tuple[str, list[Part]]]:
        plan = self._plan
        made: list[tuple[str, list[Part]]] = []
        seen: set[str] = set()
        still = dict.fromkeys((*plan.open_answers, *plan.guesses))
        for effect in self._effects:
            if effect.key not in still:
                continue
            seen.add(effect.key)
            made.append((effect.key, chart.row(effect)))
        for key in still:
            if key in seen:
                continue
            made.append((key, [
                (escape_controls(label(plan.job, key)), "bold"),
                "  ", _pressed(standing(plan.job, key)), f"  · {_ask_words(who(key))}",
            ]))
        return made


def _pressed(stands: Standing) -> Part:
    """How an answer stands; a guess is to be pressed."""
    return (stands.value, TURNS) if stands is Standing.GUESS else stands.value


def _line(kind: str, key: str, *parts: Part) -> Option:
    """A line that opens something; it begins with a space for the sign of the marked one."""
    return Option(Content.assemble(" ", *parts), id=f"{kind}:{key}")


_NAME = 9
"""Cells of what stands before a line on top."""


_OPEN = ("OPEN  ", "bold")
_NARROWEST, _WIDEST = 24, 76
"""Least and most cells of the account of the metal."""


def _ask_words(who: str) -> str:
    return "you can settle it" if who == "you" else f"ask the {who}"


def _state_words(plan: Plan) -> str:
    gone = escape_controls(still_out_words(plan.job))
    held = escape_controls(hold_words(plan))
    met = escape_controls(lots_words(plan))
    end = "." if gone or held or met else ""
    return " ".join(filter(None, (f"{_held_words(plan)}{end}", held, met, gone)))


def _held_words(plan: Plan) -> str:
    if plan.ready:
        if plan.readiness.nothing_to_buy:
            return "NOTHING TO BUY: nothing stops the job"
        if plan.job.life.state not in (OrderState.DRAFT, OrderState.OUT):
            return escape_controls(state_of(plan))
        return "READY: nothing that holds the order is open or guessed, and nothing stops it"
    if plan.concealed:
        return "PRACTICE: what there is to find shows once it is handed in (Ctrl+R: the brief)"
    said = [counted(len(plan.stops), "stop")] if plan.stops else []
    said += plan.readiness.parts  # their sum stands in the title
    return " · ".join(said) or "no coils can be worked out yet"
