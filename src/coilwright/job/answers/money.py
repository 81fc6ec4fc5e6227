"""Answers about money: which currency prices are in, and a price in it."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from coilwright.job.answers.spec import Answer, UnreadableAnswer, Value
from coilwright.job.job import Job
from coilwright.units import System
from coilwright.units.currency import (
    DOLLARS,
    OtherCurrency,
    as_dollars,
    currency_named,
    in_currency,
)


class CurrencyAnswer(Answer):
    """A currency by its code of three letters, `USD`, or by a sign that only one has: `€`."""

    def read(self, text: str, system: System = System.US) -> Value:
        """The code. Raises UnreadableAnswer with a sentence for the user."""
        code = currency_named(text)
        if not code:
            like = "USD or CAD" if system is System.US else "EUR or SEK"
            raise UnreadableAnswer(f"{self.label}: three letters are wanted, such as {like}.")
        return code


@dataclass(frozen=True, slots=True)
class PriceAnswer(Answer):
    """A price by weight, in the currency of the job. currency: its code. unsaid: whether nobody
    said it yet."""

    currency: str = DOLLARS
    unsaid: bool = False

    def in_job(self, job: Job) -> Answer:
        """The answer as this job reads and shows it."""
        return dataclasses.replace(
            self, currency=job.currency, unsaid=job.job.currency is None)

    def bare_unit(self, system: System) -> str | None:
        """The unit a number typed alone is in, the job's currency by weight; by weight alone in
        metric while nobody said a currency."""
        # slots=True makes a new class, in which super() without arguments finds no home.
        unit = Answer.bare_unit(self, system)
        if unit and self.unsaid and system is System.METRIC:
            return unit.removeprefix(DOLLARS)
        return unit and in_currency(unit, self.currency)

    def read(self, text: str, system: System = System.US) -> Value:
        """The price. Raises UnreadableAnswer with a sentence for the user."""
        try:
            typed = as_dollars(text, self.currency)
            return Answer.read(self._in_dollars(), typed, system)
        except OtherCurrency as other:
            raise UnreadableAnswer(
                f"{self.label}: the prices of this job are in {self.currency}, and this one says "
                f"{other}; the job's currency is the last row of step 1.") from None
        except UnreadableAnswer as error:
            raise UnreadableAnswer(in_currency(str(error), self.currency)) from None

    def text(self, value: Value | None, system: System = System.US) -> str:
        """The price in full; reading it back gives it again."""
        return in_currency(Answer.text(self._in_dollars(), value, system), self.currency)

    def shown(self, value: Value | None, system: System = System.US) -> str:
        """The price as boxes, sheets and lists show it."""
        return in_currency(Answer.shown(self._in_dollars(), value, system), self.currency)

    def example(self, system: System) -> str:
        """A text that its box reads."""
        return in_currency(Answer.example(self, system), self.currency)

    def _in_dollars(self) -> Answer:
        """The same with the texts of the core, which knows one currency."""
        return dataclasses.replace(self, currency=DOLLARS, unsaid=False)
