"""The part checks over tilt, side and gust."""

from __future__ import annotations

from dataclasses import replace
from math import inf

import numpy as np
from numpy.typing import NDArray

from polestead.base.check import Check
from polestead.base.working import Step, Working
from polestead.homestead.model import Drive, Footing, Frame, Lock, Mount, NewArray, Place
from polestead.loads.pressure import allowable_gust_m_s
from polestead.mount.checks import geometry_checks, linkage_checks
from polestead.mount.linkage import move_time_s
from polestead.stand.code import CodeCheck, code_check
from polestead.stand.notes import notes_of, relied_on_of
from polestead.stand.parts.holds import rod_parts
from polestead.stand.parts.part import STATICS, Part
from polestead.stand.result import STATES, StandResult, State, TiltStand, Verdict
from polestead.stand.screens import rust_of, screens_of
from polestead.stand.setting import Setting, setting_of
from polestead.stand.stances import stances_of
from polestead.stand.states import (
    MOVE_AT_MOST_M_S,
    Curve,
    curves_of,
    has_hold,
    least_on_the_way,
    parts_in,
    state_card,
    working_at,
)

Floats = NDArray[np.float64]
NO_HOLD = "nothing holds it: no storm hold and no actuator"


def stand_of(
    place: Place,
    array: NewArray,
    mount: Mount,
    footing: Footing,
    drive: Drive | None,
    lock: Lock | None,
    frame: Frame | None = None,
    prop: Lock | None = None,
) -> StandResult:
    """Does it stand: every part, every tilt, up to which gust.

    Two questions, kept apart (conventions §12): the code's check over the whole travel decides the verdict; the card tells the gust.

    Raises:
        Wrong: No such pipe or tube.
    """
    return stands(setting_of(place, array, mount, footing, drive, lock, frame, prop))


def stands(setting: Setting) -> StandResult:
    """The same for a mount whose sections are worked out already."""
    held = parts_in(setting, "locked")
    code = code_check(setting, held)
    checks = tuple(sorted((*code.checks, *screens_of(setting)), key=lambda check: -check.use))
    checks = checks if has_hold(setting) else (_no_hold_check(), *checks)
    shapes = shape_checks(setting)
    curves = curves_of(setting)
    card = _card(setting, code, held, curves)
    there = [
        state for state in STATES if state in curves and (has_hold(setting) or state == "prop")
    ]
    states = tuple(state_card(setting, curves[state]) for state in there)
    weakest = min(range(len(card)), key=lambda row: card[row].stands_to_m_s)
    first = card[weakest]
    verdict = _verdict(code, checks, shapes)
    moves = [row.move_under_m_s for row in card if row.move_under_m_s is not None]
    return StandResult(
        verdict=verdict,
        card=card,
        states=states,
        stances=stances_of(card, setting.mount.winter_tilt_deg, setting.mount.summer_tilt_deg),
        checks=checks,
        geometry_checks=shapes,
        code_gust_m_s=allowable_gust_m_s(setting.site.basis, setting.place.wind_speed_m_s),
        move_under_m_s=min(moves) if moves else None,
        first_gives=first.gives_first,
        first_gives_tilt_deg=first.tilt_deg,
        first_gives_m_s=first.stands_to_m_s,
        first_gives_working=working_at(setting, curves["locked"], weakest),
        rust=rust_of(setting),
        relied_on=relied_on_of(setting, verdict, _rod_alone_check(setting)),
        notes=notes_of(setting, code, shapes),
    )


def shape_checks(setting: Setting) -> tuple[Check, ...]:
    """Clearance, pole strike, height and linkage."""
    g, mount, drive = setting.geometry, setting.mount, setting.drive
    limit = setting.place.height_limit_m
    beam = (setting.beam.depth_m, setting.beam.breadth_m)
    checks = geometry_checks(g, setting.pipe.outside_m, mount.clear_below_m, limit, beam)
    if drive is not None:
        checks += linkage_checks(drive, g.least_tilt_deg, g.steepest_tilt_deg)
    return checks


def _card(
    setting: Setting, code: CodeCheck, held: tuple[Part, ...], curves: dict[State, Curve]
) -> tuple[TiltStand, ...]:
    tilts, free = setting.card_tilts_deg, not has_hold(setting)
    moving = curves.get("moving")
    way = None
    if moving is not None:
        way = least_on_the_way(np.minimum(moving.crossing.gust_m_s, MOVE_AT_MOST_M_S))
    rows = (
        _tilt_stand(setting, column, float(tilt), code, held, curves, way)
        for column, tilt in enumerate(tilts)
    )
    return tuple(_held_by_nothing(row) if free else row for row in rows)


def _tilt_stand(
    setting: Setting,
    column: int,
    tilt_deg: float,
    code: CodeCheck,
    held: tuple[Part, ...],
    curves: dict[State, Curve],
    way: Floats | None,
) -> TiltStand:
    """One row of the card."""
    locked, rod, moving = curves["locked"], curves.get("rod"), curves.get("moving")
    bare, worst = locked.crossing, int(code.use[:, column].argmax())
    gives = bare.gives(column)
    met = locked.met[setting.set_of(gives.loads)]
    move = None if moving is None else min(float(moving.crossing.gust_m_s[column]), MOVE_AT_MOST_M_S)  # fmt: skip
    drive, flat = setting.drive, setting.geometry.least_tilt_deg
    return TiltStand(
        tilt_deg=tilt_deg,
        stands_to_m_s=float(bare.gust_m_s[column]),
        gives_first=gives.name,
        wind_side=met.side(int(bare.case[column])),
        snow_stands_to_m_s=float(curves["half snow"].crossing.gust_m_s[column]),
        rod_stands_to_m_s=None if rod is None else float(rod.crossing.gust_m_s[column]),
        rod_gives_first="" if rod is None else rod.crossing.first(column),
        move_under_m_s=move,
        path_under_m_s=None if way is None else float(way[column]),
        flat_in_s=None if drive is None else move_time_s(drive, tilt_deg, flat),
        code_use=float(code.use[worst, column]),
        code_part=held[worst].name,
    )


def _held_by_nothing(row: TiltStand) -> TiltStand:
    """A free hinge stands to nothing."""
    return replace(
        row,
        stands_to_m_s=0.0,
        snow_stands_to_m_s=0.0,
        gives_first=NO_HOLD,
        code_use=inf,
        code_part=NO_HOLD,
    )


def _verdict(code: CodeCheck, checks: tuple[Check, ...], shapes: tuple[Check, ...]) -> Verdict:
    """Stands: everything holds over the whole travel.  Laid flat: only the wind's parts fail, and none of them flat."""
    if not all(check.holds for check in shapes):
        return "gives"
    if all(check.holds for check in checks):
        return "stands"
    names = {part.name for part in code.parts}
    still = all(check.holds for check in checks if check.part not in names)
    return "stands only when laid flat" if still and code.flat_use <= 1.0 else "gives"


def _no_hold_check() -> Check:
    step = Step("a free hinge carries no moment", "M", "", 0.0, "N m", STATICS)
    working = Working(
        "the hold", (step,), ("Neither a storm hold nor an actuator stands in the file.",)
    )
    return Check("storm hold", "something must hold it", 1.0, 0.0, "", inf, STATICS, working)


def _rod_alone_check(setting: Setting) -> Check | None:
    """The actuator in the code's check, were it to hold a storm in place of the storm hold; None without either."""
    if setting.drive is None or setting.lock is None:
        return None
    rods = tuple(part for part in rod_parts(setting) if part.name.startswith("actuator"))
    names = {part.name for part in rods}
    return next(check for check in code_check(setting, rods).checks if check.part in names)
