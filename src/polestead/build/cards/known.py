"""What the cards are made from: the file's sections and what lower rooms worked out; nothing here is a sum of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from polestead.build.aim import Aim
from polestead.build.cards.card import AsBuilt, Card, CardStep, Figure, Gate, StanceLine
from polestead.build.cure import Cure
from polestead.build.given import Given
from polestead.build.lifts.lift import Lift
from polestead.build.result import BuildResult
from polestead.build.steps import act_named, sign_off_named
from polestead.mount.gauge import Gauge
from polestead.stand.result import StandResult
from polestead.wiring.drawn.form import Form
from polestead.wiring.result import WiringResult
from polestead.wiring.trench.trench import Trench

MOST_FIGURES = 7
LINE = 70  # letters of a step across a card, at 14 pt


@dataclass(frozen=True)
class Known:
    """One mount, worked out.

    Attributes:
        given: The file's sections with geometry and pole.
        built: Pieces, pour, trench, lifts, hanging.
        stand: Stances and states with what each stands to, and the code's checks.
        wires: Strings and run.
        trench: What must be in it, and the owner's own lines.
        form: The test form.
        gauge: The rod's gauge, None without a drive.
        cure: The cure clock, None where it was not asked for.
        aim: Solar noon and compass on a date, None without a date.
    """

    given: Given
    built: BuildResult
    stand: StandResult
    wires: WiringResult
    trench: Trench
    form: Form
    gauge: Gauge | None = None
    cure: Cure | None = None
    aim: Aim | None = None

    def lift(self, name: str) -> Lift:
        """A lift by the beginning of its name."""
        return next(one for one in self.built.lifts if one.name.startswith(name))


def card(
    act: str,
    title: str,
    figures: list[Figure],
    steps: tuple[CardStep, ...],
    *,
    gate: str = "",
    gate_after: int = -1,
    as_built: tuple[AsBuilt, ...] = (),
    sketch: str = "",
    missing: tuple[str, ...] = (),
    notes: tuple[str, ...] = (),
    clock: Cure | None = None,
    goes_on: bool = False,
) -> Card:
    """A card of an act of ``steps``: crew, tools and hire are taken from there.

    Args:
        act: Its name there.
        title: As on the card.
        figures: The first seven count.
        steps: In order.
        gate: The sign-off on this card, by its name; empty: none.
        gate_after: Place of the step after which it stands, -1 the last.
        as_built: What is measured.
        sketch: Name of its drawing.
        missing: What the file lacks.
        notes: What stands beside it.
        clock: The cure clock.
        goes_on: Whether the act began on a card before: tools, hire and what comes before it stand there.
    """
    one = act_named(act)
    sign = None if gate == "" else sign_off_named(gate)
    people = "One pair of hands" if one.people == 1 else f"{one.people} people"
    who = f"{people}, about {one.work_days:g} {'day' if one.work_days <= 1.0 else 'days'} for the whole act"  # fmt: skip
    hire = f"{one.hire}, {one.hire_days:g} day" if one.hire_days else one.hire
    return Card(
        act, title, people if goes_on else who, () if goes_on else one.tools, "" if goes_on else hire,
        () if goes_on else (*one.needs, *(f"gate: {name}" for name in one.behind if name != gate)), tuple(figures[:MOST_FIGURES]), steps,
        None if sign is None else gate_after % len(steps), None if sign is None else Gate(sign.name, sign.words, sign.sign),
        as_built, sketch, missing, notes, (), clock,
    )  # fmt: skip


def in_chunks(steps: Sequence[CardStep], most: int) -> list[tuple[CardStep, ...]]:
    """Steps on as few cards as hold them at so many lines each, cards as even as can be.

    Args:
        steps: In order.
        most: Lines on a card, a step's and its caution's together.

    Example:
        >>> [len(chunk) for chunk in in_chunks([CardStep("Dig.")] * 9, 8)]
        [5, 4]
    """
    lines = [_lines(step) for step in steps]
    count = ceil(sum(lines) / most)
    while True:
        chunks = _filled(steps, lines, sum(lines) / count + 0.5, count)
        if all(sum(map(_lines, chunk)) <= most or len(chunk) == 1 for chunk in chunks):
            return chunks
        count += 1


def _filled(
    steps: Sequence[CardStep], lines: Sequence[int], each: float, count: int
) -> list[tuple[CardStep, ...]]:
    chunks: list[list[CardStep]] = [[]]
    room = each
    for step, long in zip(steps, lines, strict=True):
        if chunks[-1] and long > room + 0.5 and len(chunks) < count:
            chunks.append([])
            room = each
        chunks[-1].append(step)
        room -= long
    return [tuple(chunk) for chunk in chunks]


def _lines(step: CardStep) -> int:
    return 1 + len(step.words) // LINE + (1 + len(step.caution) // LINE if step.caution else 0)


def count(value: int, words: str) -> Figure:
    """A count."""
    return Figure(float(value), "", words)


def text(shown: str, words: str) -> Figure:
    """A figure that is no number."""
    return Figure(0.0, "", words, shown)


def stance_lines(known: Known) -> tuple[StanceLine, ...]:
    """The four stances and the number of the lock's hole at each, where the file has one within half a degree."""
    lock = known.given.lock
    holes = sorted(lock.holes_deg) if lock is not None else []

    def hole(tilt_deg: float) -> int | None:
        return next((nth for nth, at in enumerate(holes, start=1) if abs(at - tilt_deg) <= 0.5), None)  # fmt: skip

    return tuple(
        StanceLine(s.name, s.tilt_deg, s.stands_to_m_s, s.gives_first, hole(s.tilt_deg))
        for s in known.stand.stances
    )
