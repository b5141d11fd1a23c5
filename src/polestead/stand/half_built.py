"""States on the way up, each with the gust it stands to: bare pole in green concrete, strongback up, half the modules hung."""

from __future__ import annotations

from dataclasses import replace
from math import ceil, sqrt

import numpy as np

from polestead.base.edition import in_edition
from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.loads.combinations import LoadSet, in_gust
from polestead.loads.pressure import velocity_pressure_pa
from polestead.mount.geometry import Geometry, geometry_of
from polestead.stand.actions import (
    PLACE_OF,
    Acting,
    Met,
    dead,
    empty,
    met,
    met_by_set,
    pole_drag_n,
    unit_wind,
)
from polestead.stand.gust import crossing_of
from polestead.stand.headline import gives_working
from polestead.stand.parts.part import STATICS, Floats, Part
from polestead.stand.parts.pier import pier_parts
from polestead.stand.parts.pole import pole_parts
from polestead.stand.result import HalfBuilt
from polestead.stand.setting import GRAVITY_M_S2, Setting
from polestead.stand.states import hold_parts, parts_in

World = tuple[tuple[Part, ...], dict[LoadSet, Met]]
BARE = "bare pole in green concrete"
STRONGBACK = "strongback and rails up, no modules"
HALF = "half of the modules hung"
STEEL_DRAG = 2.0  # flat sides square to the wind, open frame (ASCE 7-16 Fig. 29.4-2, from memory)
RAIL_M = 0.06  # width of a rail seen from the front, where its tube is not told: ours
FINISHED = Source("nobody leaves bare steel to more than that", "docs/method/stand.md", "ours")
FRAME_EN = Source("EN 1991-1-4:2005", "7.7, sharp-edged sections, cf 2", "memory")
FRAME = Source("ASCE 7-16", "Fig. 29.4-2, open frame of flat sides", "memory")


def half_built(setting: Setting) -> tuple[HalfBuilt, ...]:
    """The three states, in the order they are met."""
    gusts = met_by_set(setting, setting.card_tilts_deg)
    whole = crossing_of(setting, parts_in(setting, "locked"), gusts).gust_m_s.min()
    frame = _frame_only(setting)
    if frame.gust_m_s > whole:  # nobody leaves bare steel to more than the finished array stands to
        words = f"{frame.words} Told no higher than the finished array."
        formula = f"min({frame.gust_m_s:.2f}, {whole:.2f})"
        least = Step("told no higher than the finished array", "V", formula, float(whole), "m/s", FINISHED)  # fmt: skip
        working = replace(frame.working, steps=(*frame.working.steps, least))
        frame = replace(frame, gust_m_s=float(whole), words=words, working=working)
    return (_bare_pole(setting), frame, _half_hung(setting))


def _bare_pole(setting: Setting) -> HalfBuilt:
    """A pole standing on its own foot in concrete that holds nothing yet, without braces."""
    pipe, footing = setting.pipe, setting.footing
    length_m = setting.pole_height_m + footing.pole_depth_m
    weight = pipe.mass_kg_m * length_m * GRAVITY_M_S2
    drag = pole_drag_n(setting, 1.0, 1.0, setting.gust_factor)
    lever_m = setting.pole_height_m / 2.0 + footing.pole_depth_m
    gust = sqrt(weight * pipe.outside_m / 2.0 / (drag * lever_m))
    steps = (
        Step("weight of the pole", "W", f"{pipe.mass_kg_m:.2f} x {length_m:.3f} x g", weight, "N", STATICS),
        Step("its drag in a gust of 1 m/s", "F1", f"at half its height, {lever_m:.3f} m over its foot", drag, "N", STATICS),
        Step("gust that tips it off its foot", "V", f"sqrt({weight:.0f} x {pipe.outside_m:.4f} / 2 / ({drag:.4g} x {lever_m:.3f}))", gust, "m/s", STATICS),
    )  # fmt: skip
    words = "Braced both ways from the moment it stands until the concrete has set; no lift, no climbing, nothing hung on it."
    return HalfBuilt(
        BARE,
        gust,
        "the whole pole tips: without braces only its own weight holds it",
        words,
        Working(BARE, steps),
    )


def _frame_only(setting: Setting) -> HalfBuilt:
    """Steel without glass: level push of an open frame at the hinge, locked."""
    bare = replace(setting, geometry=geometry_without_modules(setting))
    tilts = setting.card_tilts_deg
    still, blown = dead(bare, tilts), _steel_wind(setting, tilts)
    gusts = {loads: met(in_gust(setting.site.basis, loads), still, blown) for loads in setting.load_sets}  # fmt: skip
    parts = (*pole_parts(bare), *pier_parts(bare), *hold_parts(bare))
    words = (
        "Locked before anybody lets go of it; no lift in a wind that moves the load on its line."
    )
    return _weakest(setting, STRONGBACK, words, [(parts, gusts)], _frame_steps(setting))


def geometry_without_modules(setting: Setting) -> Geometry:
    """The geometry with the modules' masses off."""
    g = setting.geometry
    kept = tuple(mass for mass in g.masses if not mass.name.startswith("modules"))
    total = sum(mass.mass_kg for mass in kept)
    return replace(
        g, masses=kept, mass_kg=total,
        centre_along_m=sum(m.mass_kg * m.along_m for m in kept) / total,
        centre_above_m=sum(m.mass_kg * m.above_m for m in kept) / total,
    )  # fmt: skip


def _steel_wind(setting: Setting, tilts_deg: Floats) -> Acting:
    """Drag of strongback and rails at the hinge, from either side, a twentieth of the chord off it."""
    g, force = setting.geometry, setting.gust_factor * _unit_pressure_pa(setting) * STEEL_DRAG * _seen_m2(setting)  # fmt: skip
    drag = pole_drag_n(setting, 1.0, 1.0, setting.gust_factor)
    names = tuple(f"wind on the {side}, bare steel" for side in ("back", "glass"))
    blown = empty(names, ("back", "glass"), tilts_deg)
    for row, facing in enumerate((1.0, -1.0)):
        turn = 0.05 * g.chord_m * force
        fields = {
            "towards_n": facing * force, "shear_n": facing * (force + drag), "hinge_n_m": turn,
            "base_n_m": facing * (force * g.hinge_height_m + drag * setting.pole_height_m / 2.0),
            "twist_n_m": setting.off_centre * g.width_m * force, "square_n": facing * setting.lopsided * force,
        }  # fmt: skip
        for name, value in fields.items():
            blown.values[PLACE_OF[name], row] = value
    return blown


def _seen_m2(setting: Setting) -> float:
    """Of strongback and rails, seen from the front."""
    g, frame = setting.geometry, setting.frame
    return setting.beam.depth_m * g.width_m + RAIL_M * g.chord_m * setting.array.columns * frame.rails  # fmt: skip


def _unit_pressure_pa(setting: Setting) -> float:
    return float(velocity_pressure_pa(1.0, setting.geometry.hinge_height_m, setting.site))


def _frame_steps(setting: Setting) -> tuple[Step, ...]:
    """How the wind on bare steel is found, for a gust of 1 m/s."""
    g, q, seen_m2 = setting.geometry, _unit_pressure_pa(setting), _seen_m2(setting)
    area = f"{setting.beam.depth_m:.3f} x {g.width_m:.3f} + {RAIL_M} x {g.chord_m:.3f} x {setting.array.columns} x {setting.frame.rails}"
    factor, force = setting.gust_factor, setting.gust_factor * q * STEEL_DRAG * seen_m2
    return (
        Step("strongback and rails, seen from the front", "A", area, seen_m2, "m^2", STATICS),
        Step("their drag in a gust of 1 m/s, at the hinge", "F1", f"{factor:.3g} x {q:.4f} x {STEEL_DRAG:g} x {seen_m2:.3f}", force, "N", FRAME_EN if setting.eurocode else in_edition(FRAME, setting.site.basis)),
    )  # fmt: skip


def _half_hung(setting: Setting) -> HalfBuilt:
    """The worst of one side, the lower rows or the upper rows hung, locked."""
    worlds: list[World] = []
    columns, rows = setting.array.columns, setting.array.rows
    if columns > 1:
        some = ceil(columns / 2)
        part = _with_array(setting, {"columns": some}, {})
        off_m = (setting.geometry.width_m - part.geometry.width_m) / 2.0
        worlds.append((_hung(part, "rails", "strongback"), _lopsided(part, off_m)))
    if rows > 1:
        some = ceil(rows / 2)
        half_m = _with_array(setting, {"rows": some}, {}).geometry.chord_m / 2.0
        for off_m in (half_m, -half_m):
            part = _with_array(setting, {"rows": some}, {"hinge_off_centre_m": off_m})
            worlds.append((_hung(part), _lopsided(part, 0.0)))
    if not worlds:
        worlds.append((_hung(setting), _lopsided(setting, 0.0)))
    words = "Hang from the middle outwards, left and right in turn; locked, and propped besides, until the last is clamped."
    return _weakest(setting, HALF, words, worlds)


def _hung(setting: Setting, *whole: str) -> tuple[Part, ...]:
    """All parts but those that lie there whole and bear no more than when all is hung.

    The rails always; the strongback where one side is hung, whose half bears what it bears in the end.
    """
    parts = parts_in(setting, "locked")
    return tuple(part for part in parts if part.name not in {"rails", *whole})


def _with_array(setting: Setting, array: dict[str, int], mount: dict[str, float]) -> Setting:
    changed = setting.array.model_copy(update=array)
    moved = setting.mount.model_copy(update={**mount, "strongback_mass_kg": _strongback_kg(setting)})  # fmt: skip
    geometry = geometry_of(moved, changed, _strongback_kg(setting))
    return replace(setting, array=changed, mount=moved, geometry=geometry)


def _strongback_kg(setting: Setting) -> float:
    return next(m.mass_kg for m in setting.geometry.masses if m.name == "strongback")


def _lopsided(setting: Setting, off_m: float) -> dict[LoadSet, Met]:
    """The gust by set, everything hung so far to one side."""
    tilts = setting.card_tilts_deg
    still, blown = dead(setting, tilts), unit_wind(setting, tilts)
    for acting in (still, blown):
        acting.values[PLACE_OF["roll_n_m"]] += off_m * np.abs(acting.down_n)
        acting.values[PLACE_OF["twist_n_m"]] += off_m * np.abs(acting.towards_n)
    basis = setting.site.basis
    return {loads: met(in_gust(basis, loads), still, blown) for loads in setting.load_sets}


def _weakest(
    setting: Setting, name: str, words: str, worlds: list[World], more: tuple[Step, ...] = ()
) -> HalfBuilt:
    """The least gust of several ways of being half built."""
    told = []
    for parts, gusts in worlds:
        crossing = crossing_of(setting, parts, gusts)
        place = int(crossing.gust_m_s.argmin())
        told.append((float(crossing.gust_m_s[place]), crossing, place, gusts))
    gust, crossing, place, gusts = min(told, key=lambda one: one[0])
    part = crossing.gives(place)
    met_by = gusts[setting.set_of(part.loads)]
    working = gives_working(crossing, met_by, place, name, setting.eurocode, more=more)
    return HalfBuilt(name, gust, part.name, words, working)
