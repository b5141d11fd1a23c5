"""The part checks over tilt, side and gust."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf

import numpy as np
from numpy.typing import NDArray

from polestead.base.check import Check
from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.homestead.model import Drive, Footing, Lock, Mount, NewArray, Place
from polestead.mount.checks import geometry_checks, linkage_checks
from polestead.stand.actions import Acting, crossed, dead, snow_lying, unit_wind
from polestead.stand.code import CodeCheck, code_check
from polestead.stand.gust import Crossing, earlier, first_crossing
from polestead.stand.headline import first_gives_working
from polestead.stand.notes import notes_of, relied_on_of
from polestead.stand.parts import Part, locked_parts, moving_parts, rod_parts, standing_parts
from polestead.stand.result import StandResult, TiltStand, Verdict
from polestead.stand.setting import MPH_M_S, Setting, setting_of

Floats = NDArray[np.float64]
MOVE_AT_MOST_M_S = 30.0 * MPH_M_S
NO_HOLD = "nothing holds it: no storm hold and no actuator"


def stand_of(
    place: Place,
    array: NewArray,
    mount: Mount,
    footing: Footing,
    drive: Drive | None,
    lock: Lock | None,
) -> StandResult:
    """Does it stand: every part, every tilt, up to which gust.

    Two questions, kept apart (conventions §12): the code's check over the whole travel decides the verdict; the card tells the gust.

    Raises:
        Wrong: No such pipe or tube.
    """
    setting = setting_of(place, array, mount, footing, drive, lock)
    held = (*standing_parts(setting), *hold_parts(setting))
    code = code_check(setting, held)
    checks = code.checks if has_hold(setting) else (_no_hold_check(), *code.checks)
    shapes = shape_checks(setting)
    curves = _curves(setting)
    card = _card(setting, code, held, curves)
    weakest = min(range(len(card)), key=lambda row: card[row].stands_to_m_s)
    first = card[weakest]
    verdict = _verdict(code, checks, shapes)
    moves = [row.move_under_m_s for row in card if row.move_under_m_s is not None]
    return StandResult(
        verdict=verdict,
        card=card,
        checks=checks,
        geometry_checks=shapes,
        code_gust_m_s=place.wind_speed_m_s * float(np.sqrt(0.6)),
        move_under_m_s=min(moves) if moves else None,
        first_gives=first.gives_first,
        first_gives_tilt_deg=first.tilt_deg,
        first_gives_m_s=first.stands_to_m_s,
        first_gives_working=first_gives_working(
            curves.bare, held, curves.calm, curves.gusting, weakest
        ),
        relied_on=relied_on_of(setting, verdict, _rod_alone_check(setting)),
        notes=notes_of(setting, code, shapes),
    )


def has_hold(setting: Setting) -> bool:
    """Whether anything keeps it from turning about its hinge."""
    return setting.lock is not None or setting.drive is not None


def hold_parts(setting: Setting) -> tuple[Part, ...]:
    """What holds it in a storm: the storm hold; without one the rod alone; without either nothing."""
    if setting.lock is not None:
        return locked_parts(setting)
    return rod_parts(setting) if setting.drive is not None else ()


def shape_checks(setting: Setting) -> tuple[Check, ...]:
    """Clearance, pole strike, height and linkage."""
    g, mount, drive = setting.geometry, setting.mount, setting.drive
    limit = setting.place.height_limit_m
    beam = (setting.beam.depth_m, setting.beam.breadth_m)
    checks = geometry_checks(g, setting.pipe.outside_m, mount.clear_below_m, limit, beam)
    if drive is not None:
        checks += linkage_checks(drive, g.least_tilt_deg, g.steepest_tilt_deg)
    return checks


@dataclass(frozen=True, eq=False)
class Curves:
    """Gusts over the card's tilts: bare, under half-covering snow, on the rod alone, while moving.

    Attributes:
        sides: Side of the wind of each case of the bare curve.
        calm, gusting: What acts without wind, and the wind of a gust of 1 m/s.
    """

    bare: Crossing
    snowed: Crossing
    rod: Crossing | None
    moving: Crossing | None
    sides: tuple[str, ...]
    calm: Acting
    gusting: Acting


def _curves(setting: Setting) -> Curves:
    """First crossings; a set of parts gives when its first part does, so the holds are looked at apart."""
    tilts = setting.card_tilts_deg
    blown, still, lying = (
        unit_wind(setting, tilts),
        dead(setting, tilts),
        snow_lying(setting, tilts),
    )
    loaded = lying.with_values(lying.values + still.values)
    calm, gusting = crossed(still, blown, 1.0, 0.0), crossed(still, blown, 0.0, 1.0)
    snowy, snowy_gusting = crossed(loaded, blown, 1.0, 0.0), crossed(loaded, blown, 0.0, 1.0)
    parts, holds = standing_parts(setting), hold_parts(setting)
    frame = first_crossing(parts, calm, gusting)
    bare = earlier(frame, first_crossing(holds, calm, gusting)) if holds else frame
    rod = moving = None
    if setting.drive is not None:
        rod = bare
        if setting.lock is not None:
            rod = earlier(frame, first_crossing(rod_parts(setting), calm, gusting))
        moving = first_crossing(moving_parts(setting), calm, gusting)
    snowed = first_crossing((*parts, *holds), snowy, snowy_gusting)
    return Curves(bare, snowed, rod, moving, gusting.sides, calm, gusting)


def _card(
    setting: Setting, code: CodeCheck, held: tuple[Part, ...], curves: Curves
) -> tuple[TiltStand, ...]:
    tilts, free = setting.card_tilts_deg, not has_hold(setting)
    rows = (
        _tilt_stand(column, float(tilt), code, held, curves) for column, tilt in enumerate(tilts)
    )
    return tuple(_held_by_nothing(row) if free else row for row in rows)


def _tilt_stand(
    column: int, tilt_deg: float, code: CodeCheck, held: tuple[Part, ...], curves: Curves
) -> TiltStand:
    """One row of the card."""
    bare, rod, moving = curves.bare, curves.rod, curves.moving
    worst = int(code.use[:, column].argmax())
    move = None if moving is None else min(float(moving.gust_m_s[column]), MOVE_AT_MOST_M_S)
    return TiltStand(
        tilt_deg=tilt_deg,
        stands_to_m_s=float(bare.gust_m_s[column]),
        gives_first=bare.first(column),
        wind_side=curves.sides[int(bare.case[column])],
        snow_stands_to_m_s=float(curves.snowed.gust_m_s[column]),
        rod_stands_to_m_s=None if rod is None else float(rod.gust_m_s[column]),
        rod_gives_first="" if rod is None else rod.first(column),
        move_under_m_s=move,
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
    source = Source("statics", "docs/method/stand.md", "ours")
    step = Step("a free hinge carries no moment", "M", "", 0.0, "N m", source)
    working = Working(
        "the hold", (step,), ("Neither a storm hold nor an actuator stands in the file.",)
    )
    return Check("storm hold", "something must hold it", 1.0, 0.0, "", inf, source, working)


def _rod_alone_check(setting: Setting) -> Check | None:
    """The actuator in the code's check, were it to hold a storm in place of the storm hold; None without either."""
    if setting.drive is None or setting.lock is None:
        return None
    rods = rod_parts(setting)[1:]  # the hinge pins apart
    names = {part.name for part in rods}
    return next(check for check in code_check(setting, rods).checks if check.part in names)
