"""What the cards are made from: the file's sections and what lower rooms worked out; nothing here is a sum of its own."""

from __future__ import annotations

from dataclasses import dataclass

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
    gate: tuple[int, str] | None = None,
    as_built: tuple[AsBuilt, ...] = (),
    sketch: str = "",
    missing: tuple[str, ...] = (),
    notes: tuple[str, ...] = (),
) -> Card:
    """A card of an act of ``steps``: crew, tools, hire and gate are taken from there.

    Args:
        act: Its name there.
        title: As on the card.
        figures: The first seven count.
        steps: In order.
        gate: Place of the step after which it stands, and the sign-off's name.
        as_built: What is measured.
        sketch: Name of its drawing.
        missing: What the file lacks.
        notes: What stands beside it.
    """
    one = act_named(act)
    sign = None if gate is None else sign_off_named(gate[1])
    people = "one pair of hands" if one.people == 1 else f"{one.people} people"
    hire = f"{one.hire}, {one.hire_days:g} day" if one.hire_days else one.hire
    return Card(
        act, title, f"{people}, about {one.work_days:g} {'day' if one.work_days <= 1.0 else 'days'}", one.tools, hire,
        (*one.needs, *(f"gate: {name}" for name in one.behind if gate is None or name != gate[1])), tuple(figures[:MOST_FIGURES]), steps,
        None if gate is None else gate[0], None if sign is None else Gate(sign.name, sign.words, sign.sign),
        as_built, sketch, missing, notes,
    )  # fmt: skip


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
