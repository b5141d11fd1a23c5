"""What a build card holds: one act, with its figures, steps, gate and what is measured as built."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from polestead.base.show import Way
from polestead.build.cure import Cure


@dataclass(frozen=True, slots=True)
class Figure:
    """A big figure and what it is.

    Attributes:
        value: In SI; not used where ``text`` is given.
        unit: SI unit; empty for a count or a text.
        words: What it is.
        text: Used in place of the value where it is no number.
        way: To which side a length of our own choosing, or volts and seconds, are made round; empty where neither is safer (a length is then exact).
        rod: For a length of rod that shows, read off the tape: whether two measured pairs prove the gauge it is of.
    """

    value: float
    unit: str
    words: str
    text: str = ""
    way: Way = ""
    rod: Literal["", "proved", "unproved"] = ""


@dataclass(frozen=True, slots=True)
class CardStep:
    """A step, verb first, and the caution that belongs to it.

    Attributes:
        words: What is done.
        caution: What hurts in it.
        rule: Whether it holds for ever and is never done with: it has no box.
    """

    words: str
    caution: str = ""
    rule: bool = False


@dataclass(frozen=True, slots=True)
class Gate:
    """Nothing goes on before it is signed.

    Attributes:
        name: Short.
        words: The sentence across it.
        sign: Who signs.
    """

    name: str
    words: str
    sign: str


@dataclass(frozen=True, slots=True)
class AsBuilt:
    """What is measured, and the key of the file it goes back to (``mount.hinge_height``)."""

    words: str
    key: str


@dataclass(frozen=True, slots=True)
class StanceLine:
    """One stance on the pole-side card.

    Attributes:
        name: Of the stance.
        tilt_deg: Its tilt.
        stands_to_m_s: As worked; shown rounded down (conventions §13).
        gives_first: The part then.
        hole: Number of the lock's hole, 1 the flattest; None where the file has no hole there.
    """

    name: str
    tilt_deg: float
    stands_to_m_s: float
    gives_first: str
    hole: int | None


@dataclass(frozen=True, slots=True)
class Card:
    """One act.

    Attributes:
        act: Short name (``hole``).
        title: As it stands on the card.
        who: How many, and how long.
        tools: What is at hand before it begins.
        hire: What is hired; empty: nothing.
        needs: Acts that come before it.
        figures: Three to seven.
        steps: In order.
        gate_after: Place of the step after which the gate stands; None without one.
        gate: The gate, or None.
        as_built: What is measured when it is done.
        sketch: Name of its drawing; empty: none.
        missing: What the file does not tell (``pier size``).
        notes: What stands beside it.
        stances: On the pole-side card only.
        clock: The cure clock, on the card where it is read.
        part, parts: Which of how many cards of the same act.
        first: Number of its first step within the act, so that a tick means the same on any card.
    """

    act: str
    title: str
    who: str
    tools: tuple[str, ...]
    hire: str
    needs: tuple[str, ...]
    figures: tuple[Figure, ...]
    steps: tuple[CardStep, ...]
    gate_after: int | None
    gate: Gate | None
    as_built: tuple[AsBuilt, ...]
    sketch: str
    missing: tuple[str, ...]
    notes: tuple[str, ...]
    stances: tuple[StanceLine, ...] = ()
    clock: Cure | None = None
    part: int = 1
    parts: int = 1
    first: int = 1

    @property
    def key(self) -> str:
        """Its name among all cards (``lift-2``)."""
        name = self.act.replace(" ", "-")
        return name if self.parts == 1 else f"{name}-{self.part}"
