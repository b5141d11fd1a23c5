"""The slip of a number: a sentence, the ladder that leads to it, what was assumed here, and the sums in SI for the engineer."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from polestead.answer.answer import Answer
from polestead.answer.day_sun import SunOfDays
from polestead.answer.tilts import Tilts
from polestead.base.check import Check
from polestead.base.row import Row
from polestead.base.show import Style, gust, in_style, length, rod_words, significant
from polestead.base.working import Step, Working
from polestead.sheets.sentences import use_of
from polestead.sheets.working import check_lines, in_trade, working_lines
from polestead.sheets.workings import of_answer

MOST_ASSUMED = 6
ROUNDED = "rounded as conventions §13 has it: a gust down to 5 mph or 2 m/s, a use up to a whole hundredth"
SECTIONS = (
    (("pier", "soil", "frost", "concrete"), ("place", "footing")),
    (("pole", "hinge", "strongback", "cap", "ears", "lowest", "upper", "frame"), ("place", "mount", "frame")),
    (("rod", "actuator"), ("drive", "mount")),
    (("modules", "clamps", "rails"), ("place", "array", "frame")),
    (("string", "run", "breaker", "wire", "cable", "fuse"), ("run", "array", "household")),
    (("engine", "house-use"), ("household", "climate", "view")),
    (("sun of the day",), ("climate", "view", "array")),
    (("cost", "ledger", "present value", "build against"), ("prices",)),
)  # words of a name, sections whose unsettled values stand beside it  # fmt: skip


@dataclass(frozen=True, slots=True)
class Rung:
    """One step as it is shown.

    Attributes:
        word, symbol, formula, value, source: As in the step, the value in the owner's unit.
    """

    word: str
    symbol: str
    formula: str
    value: str
    source: str


@dataclass(frozen=True, slots=True)
class Slip:
    """All that is shown of one number.

    Attributes:
        key: Its name.
        heading: A sentence.
        rungs: The ladder, the result last.
        notes: What stands beside it.
        assumed: Unsettled values of its sections.
        for_engineers: The same ladder in SI, as text.
    """

    key: str
    heading: str
    rungs: tuple[Rung, ...]
    notes: tuple[str, ...]
    assumed: tuple[Row, ...]
    for_engineers: str


Told = tuple[str, str, Check | Working]  # heading, the figure in it, what it was found from


@dataclass(frozen=True)
class Slips:
    """Every slip of an answer at one tilt.

    Attributes:
        answer, tilts, sun, style: From which they are made; the sun may still be worked.
        tilt_deg: Which tilt.
        calendar_day: Which day.
    """

    answer: Answer
    tilts: Tilts
    sun: SunOfDays | None
    style: Style
    tilt_deg: float
    calendar_day: int

    @cached_property
    def _fixed(self) -> dict[str, tuple[str, Check | Working]]:
        return {slug(name): (name, what) for name, what in of_answer(self.answer)}

    def of(self, key: str) -> Slip | None:
        """The slip of a key; None where there is none, or not yet."""
        moving = self._at_tilt(key)
        if moving is not None:
            return self._made(key, *moving)
        name, what = self._fixed.get(key, ("", None))
        if what is None:
            return None
        return self._made(key, *_sentence(name, what, self.style), what)

    def _at_tilt(self, key: str) -> Told | None:
        at, t, style = f"At {self.tilt_deg:.0f}°", self.tilts, self.style
        here = t.at[t.place_of(self.tilt_deg)]
        row = self.answer.stand.card[t.place_of(self.tilt_deg)]
        if key == "stands-to":
            shown = gust(row.stands_to_m_s, style)
            return f"{at} it stands to {shown}", shown, t.stands_to(self.tilt_deg)
        if key == "first-gives-of-all":
            stand = self.answer.stand
            shown = gust(stand.first_gives_m_s, style)
            words = f"Of all tilts {stand.first_gives_tilt_deg:.0f}° stands to least: {shown}"
            return words, shown, stand.first_gives_working
        if key == "lowest-edge":
            shown = length(here.lowest_edge_m, style)
            return f"{at} the lowest edge is {shown} over the ground", shown, t.lowest_edge(self.tilt_deg)  # fmt: skip
        if key == "top":
            shown = length(here.top_height_m, style)
            return f"{at} the top is {shown} over the ground", shown, t.top_height(self.tilt_deg)
        if key == "heap":
            shown = use_of(self.answer.more.heap.use)
            return (
                f"One shed fall leaves a heap of {length(t.heap_m, style)}; with what lies it {shown} of the room under the low edge",
                shown,
                self.answer.more.heap,
            )
        if key == "rod":
            working = t.rod(self.tilt_deg)
            if working is None or here.rod_shows_m is None:
                return None
            fit = self.answer.more.refit
            shown = rod_words(here.rod_shows_m, style, fit is not None and fit.proved)
            return f"{at} the rod is out {shown}", shown, working
        if key == "sun":
            return None if self.sun is None else self._sun_of(self.sun)
        return self._use(key, row.gives_first)

    def _sun_of(self, sun: SunOfDays) -> Told:
        shown = f"{sun.of(self.tilt_deg, self.calendar_day)[1] / 1000.0:.1f} kWh"
        return f"At {self.tilt_deg:.0f}° the middle day gives {shown}", shown, sun.working(self.tilt_deg, self.calendar_day)  # fmt: skip

    def _use(self, key: str, gives_first: str) -> Told | None:
        here = self.tilts.at[self.tilts.place_of(self.tilt_deg)]
        begins = {"pole": ("pole",), "pier": ("pier", "soil", "weak soil")}
        if key == "first-gives":
            name: str | None = gives_first if gives_first in dict(here.uses) else None
        else:
            most = here.most_used(*begins[key]) if key in begins else None
            name = None if most is None else most[0]
        if name is None:
            return None
        check = self.tilts.use_of(name, self.tilt_deg)
        shown = use_of(check.use)
        return f"At {self.tilt_deg:.0f}°, {check.part}: {shown}", shown, check

    def _made(self, key: str, heading: str, shown: str, what: Check | Working) -> Slip:
        working = what.working if isinstance(what, Check) else what
        notes = working.notes
        if isinstance(what, Check):
            notes = (*notes, f"By {what.source}.")
        lines = check_lines(what, "metric") if isinstance(what, Check) else working_lines(working, "metric")  # fmt: skip
        name = f"{what.part} {working.title}" if isinstance(what, Check) else working.title
        return Slip(
            key, heading, _rungs(working, shown, self.style, what if isinstance(what, Check) else None), notes,
            assumed_in(self.answer.rows, name), "\n".join(lines),
        )  # fmt: skip


def slip_of(key: str, heading: str, working: Working, style: Style) -> Slip:
    """The slip of a working that stands by itself.

    Args:
        key: Its name.
        heading: A sentence.
        working: The ladder.
        style: Whose units.
    """
    return Slip(
        key,
        heading,
        _rungs(working, "", style),
        working.notes,
        (),
        "\n".join(working_lines(working, "metric")),
    )


def _rungs(working: Working, shown: str, style: Style, of: Check | None = None) -> tuple[Rung, ...]:
    """The ladder; its last rung is the figure as it is shown, where rounding or unit make it another than the sums' own."""
    rungs = tuple(_rung(step, style, of) for step in working.steps)
    if shown and rungs[-1].value != shown:
        rungs = (*rungs, Rung("as it is shown", "", "", shown, ROUNDED))
    return rungs


def _rung(step: Step, style: Style, of: Check | None) -> Rung:
    """A step; where the owner has other units than the sums, its value in both, so that no step between them is left out."""
    si = f"{significant(step.value)} {step.unit}".strip()
    value = in_trade(step, style, of) if step.unit else si
    return Rung(step.word, step.symbol, step.formula, value if value == si else f"{si} = {value}", str(step.source))  # fmt: skip


def _sentence(name: str, what: Check | Working, style: Style) -> tuple[str, str]:
    """A heading and the figure in it."""
    if isinstance(what, Check):
        shown = use_of(what.use)
        return f"{what.part[0].upper()}{what.part[1:]}: {shown}", shown
    result = what.result
    shown = in_style(result.value, result.unit, style) if result.unit else significant(result.value)
    return f"{name[0].upper()}{name[1:]}: {shown}", shown


def assumed_in(rows: Iterable[Row], name: str) -> tuple[Row, ...]:
    """Unsettled values that may stand behind a number, facts that were assumed before defaults; no more than six.

    Args:
        rows: Of the file.
        name: Of the number.
    """
    wanted = next((sections for words, sections in SECTIONS if any(word in name for word in words)), ("place",))  # fmt: skip
    found = [row for row in rows if row.unsettled and row.section.split(".")[0].split("[")[0] in wanted]  # fmt: skip
    found.sort(key=lambda row: row.standing != "assumed")
    return tuple(found[:MOST_ASSUMED])


def slug(name: str) -> str:
    """A name as it stands in an address.

    Example:
        >>> slug("soil under the pier, pressure"), slug("frame and pole, clear of the pole's top")
        ('soil-under-the-pier-pressure', 'frame-and-pole-clear-of-the-poles-top')
    """
    return re.sub(r"[^a-z0-9]+", "-", name.lower().replace("'", "")).strip("-")
