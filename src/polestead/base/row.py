"""A visible row: one input of the sums, who says so, and how sure that is."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

from polestead.base.show import signed

Standing = Literal[
    "planned",  # the owner's own choice or measurement, in the file
    "built",  # measured on the finished thing
    "said",  # somebody who ought to know was asked
    "assumed",  # a fact of the place, taken by name until it is asked
    "default",  # not in the file; the tool's own value, with its source
]


@dataclass(frozen=True, slots=True)
class Row:
    """One input as the sums used it.

    Attributes:
        section: Section of the homestead file (``mount``).
        key: Key in it (``hinge_height``).
        written: The owner's own writing, or the default as he would write it.
        value: As used, SI (or the text, for words).
        unit: SI unit, empty for words and bare numbers.
        standing: Who says so.
        source: Where a default or an answer comes from; empty for planned rows.
        why: Why it was assumed, or what it does.
        planned: For a built row, what was planned.
        asked_of: Whom the owner asked.
        on: When it was measured or said.
    """

    section: str
    key: str
    written: str
    value: float | str
    unit: str
    standing: Standing
    source: str = ""
    why: str = ""
    planned: str = ""
    asked_of: str = ""
    on: date | None = None

    @property
    def told(self) -> str:
        """Its writing as it is shown.

        Example:
            >>> Row("place", "record_low", "-47 F", -43.9, "C", "assumed").told
            '−47 F'
        """
        return signed(self.written)

    @property
    def unsettled(self) -> bool:
        """True for rows that carry the ``~`` mark: nobody has yet said they are so."""
        return self.standing in ("assumed", "default")

    @property
    def mark(self) -> str:
        """The ``~`` that stands before every unsettled value, else nothing."""
        return "~" if self.unsettled else ""
