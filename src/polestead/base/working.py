"""The working of a number: its ladder of steps, readable leaf by leaf."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.source import Source


@dataclass(frozen=True, slots=True)
class Step:
    """One rung: word, symbol, formula with the numbers in it, value, unit, source.

    Attributes:
        word: What it is, in plain words.
        symbol: The published symbol.
        formula: The right-hand side with the numbers put in, SI; empty for a given value.
        value: The result in ``unit``.
        unit: SI unit, written with spaces and carets (``N m``, ``kg/m^3``), empty for a bare number.
        source: Where the formula or the value comes from.
    """

    word: str
    symbol: str
    formula: str
    value: float
    unit: str
    source: Source


@dataclass(frozen=True, slots=True)
class Working:
    """Steps that lead to one result; the last step is the result."""

    title: str
    steps: tuple[Step, ...]
    notes: tuple[str, ...] = ()

    @property
    def result(self) -> Step:
        """The last step."""
        return self.steps[-1]
