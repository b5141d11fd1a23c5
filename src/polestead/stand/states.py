"""The states it may be met in: locked, under half-covering snow, on the rod alone, on the prop alone, being moved."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.loads.combinations import LoadSet
from polestead.stand.actions import Met, bare_and_snowed
from polestead.stand.gust import CEILING_M_S, Crossing, crossing_of, earlier
from polestead.stand.headline import gives_working, rule_of
from polestead.stand.parts.frame import frame_parts
from polestead.stand.parts.holds import locked_parts, moving_parts, prop_parts, rod_parts
from polestead.stand.parts.part import Floats, Part
from polestead.stand.parts.pier import pier_parts
from polestead.stand.parts.pole import pole_parts
from polestead.stand.result import State, StateCard
from polestead.stand.setting import MPH_M_S, Setting

MOVE_AT_MOST_M_S = 30.0 * MPH_M_S
MOVING = Source("never moved in more wind, whatever the rod bears", "docs/method/stand.md", "ours")
WORDS: dict[State, str] = {
    "locked": "the storm hold in",
    "half snow": "the storm hold in, design snow on half of the glass",
    "rod": "the storm hold out, the actuator holding still",
    "prop": "half-way on the loose prop, nothing else",
    "moving": "being moved, the actuator pushing or pulling",
}


def standing_parts(setting: Setting) -> tuple[Part, ...]:
    """Pole, pier and frame; the holds apart."""
    return (*pole_parts(setting), *pier_parts(setting), *frame_parts(setting))


def has_hold(setting: Setting) -> bool:
    """Whether anything keeps it from turning about its hinge."""
    return setting.lock is not None or setting.drive is not None


def hold_parts(setting: Setting) -> tuple[Part, ...]:
    """What holds it in a storm: the storm hold; without one the rod alone; without either nothing."""
    if setting.lock is not None:
        return locked_parts(setting)
    return rod_parts(setting) if setting.drive is not None else ()


@dataclass(frozen=True, eq=False)
class Curve:
    """One state: its first crossings, and the gusts they were found in.

    Attributes:
        state: Which.
        crossing: Over the tilts.
        met: The gust by set.
        tilt_deg: [tilts].
    """

    state: State
    crossing: Crossing
    met: dict[LoadSet, Met]
    tilt_deg: Floats


def curves_of(setting: Setting) -> dict[State, Curve]:
    """Every state there is; the parts that stand in all of them are looked at once."""
    tilts = setting.card_tilts_deg
    bare, snowy = bare_and_snowed(setting, tilts)
    parts, holds = standing_parts(setting), hold_parts(setting)
    frame = crossing_of(setting, parts, bare)
    locked = earlier(frame, crossing_of(setting, holds, bare)) if holds else frame
    found: dict[State, Curve] = {
        "locked": Curve("locked", locked, bare, tilts),
        "half snow": Curve("half snow", crossing_of(setting, (*parts, *holds), snowy), snowy, tilts),
    }  # fmt: skip
    if setting.drive is not None:
        rod = locked
        if setting.lock is not None:
            rod = earlier(frame, crossing_of(setting, rod_parts(setting), bare))
        found["rod"] = Curve("rod", rod, bare, tilts)
        moving = crossing_of(setting, moving_parts(setting), bare)
        found["moving"] = Curve("moving", moving, bare, tilts)
    if setting.prop is not None:
        place = int(np.abs(tilts - (tilts[0] + tilts[-1]) / 2.0).argmin())
        there = {loads: gust.one_tilt(place) for loads, gust in bare.items()}
        propped = earlier(frame.one_tilt(place), crossing_of(setting, prop_parts(setting), there))
        found["prop"] = Curve("prop", propped, there, tilts[place : place + 1])
    return found


def state_card(setting: Setting, curve: Curve) -> StateCard:
    """The card of one state with the working of its weakest tilt."""
    gusts = curve.crossing.gust_m_s
    if curve.state == "moving":
        gusts = np.minimum(gusts, MOVE_AT_MOST_M_S)
    weakest = int(curve.crossing.gust_m_s.argmin())
    working = working_at(setting, curve, weakest)
    return StateCard(
        curve.state, WORDS[curve.state], tuple(curve.tilt_deg.tolist()), tuple(gusts.tolist()),
        tuple(curve.crossing.first(n) for n in range(gusts.size)), weakest, working,
    )  # fmt: skip


def working_at(setting: Setting, curve: Curve, place: int) -> Working:
    """How the gust of one state was found at one tilt."""
    gust = float(curve.crossing.gust_m_s[place])
    if gust >= CEILING_M_S:
        step = Step(
            "nothing gives up to the highest gust looked at",
            "V",
            "",
            gust,
            "m/s",
            rule_of(setting.eurocode),
        )
        return Working(f"stands to, {curve.state}: {curve.crossing.first(place)}", (step,))
    part = curve.crossing.gives(place)
    met_by = curve.met[setting.set_of(part.loads)]
    working = gives_working(curve.crossing, met_by, place, curve.state, setting.eurocode, setting)
    if curve.state == "moving" and gust > MOVE_AT_MOST_M_S:
        formula = f"min({gust:.2f}, {MOVE_AT_MOST_M_S:.2f})"
        least = Step(
            "moved under 30 mph (13.4 m/s) at the most",
            "V",
            formula,
            MOVE_AT_MOST_M_S,
            "m/s",
            MOVING,
        )
        working = replace(working, steps=(*working.steps, least))
    return working


def least_on_the_way(gusts: Floats) -> Floats:
    """For each tilt the least gust between it and the flattest [tilts]; the order of the tilts is flat to steep."""
    return np.asarray(np.minimum.accumulate(gusts))


def parts_in(setting: Setting, state: State) -> tuple[Part, ...]:
    """The parts that are looked at in a state.

    Raises:
        ValueError: The file has no such state.
    """
    if state == "moving":
        return moving_parts(setting)
    holds = {"locked": hold_parts, "half snow": hold_parts, "rod": rod_parts, "prop": prop_parts}
    return (*standing_parts(setting), *holds[state](setting))


def own_working(setting: Setting, curve: Curve, part: Part) -> Working:
    """How the gust was found at which one part alone is at its limit, at its own weakest tilt."""
    crossing = crossing_of(setting, (part,), curve.met)
    alone = Curve(curve.state, crossing, curve.met, curve.tilt_deg)
    return working_at(setting, alone, int(crossing.gust_m_s.argmin()))
