"""All that stands still while wind and tilt change: the array, its pole, its pier, its place."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from polestead.footing.eurocode import weakened
from polestead.footing.pier import Pier, pier_in
from polestead.homestead.model import Drive, Footing, Frame, Lock, Mount, NewArray, Place
from polestead.loads import eurocode
from polestead.loads.coefficients import corner_factor
from polestead.loads.combinations import LOAD_SETS, LoadSet
from polestead.loads.hill import Hill
from polestead.loads.pressure import (
    DIRECTIONALITY,
    EN,
    LEAST_NATURAL_HZ,
    RIGID_GUST_FACTOR,
    SiteWind,
    elevation_factor,
    flexible_gust_factor,
    gust_factor,
    map_gust_m_s,
)
from polestead.loads.wind import OFF_CENTRE
from polestead.mount.geometry import Geometry, geometry_of, grid_of
from polestead.mount.pins import Refit, as_measured
from polestead.strength.allowable import SteelCode
from polestead.strength.pole import (
    PipeSection,
    PoleStrength,
    pipe_section,
    pole_strength,
    thick_enough,
)
from polestead.strength.tubes import TubeSection, tube_section

Floats = NDArray[np.float64]
GRAVITY_M_S2 = 9.80665
MPH_M_S = 0.44704
SET_WITHIN_DEG = 5.0  # how far off an owner sets a tilt: ours
WOODS_M = 1500 * 0.3048  # ASCE 7 26.7.3: exposure B asks for so much rough ground on every side


@dataclass(frozen=True)
class Setting:
    """One mount at one place, as the sums take it."""

    place: Place
    array: NewArray
    mount: Mount
    footing: Footing
    drive: Drive | None
    lock: Lock | None
    geometry: Geometry
    pipe: PipeSection
    pole: PoleStrength
    beam: TubeSection
    pier: Pier
    site: SiteWind
    frame: Frame
    prop: Lock | None
    refit: Refit | None

    @property
    def eurocode(self) -> bool:
        """Whether the Eurocodes are the basis."""
        return self.site.eurocode

    @property
    def steel_code(self) -> SteelCode:
        """In whose format steel is checked."""
        return "EN" if self.eurocode else "AISC"

    @property
    def load_sets(self) -> tuple[LoadSet, ...]:
        """Which sets of combinations differ: one in allowable stress design."""
        return LOAD_SETS if self.eurocode else ("structure",)

    def set_of(self, loads: LoadSet) -> LoadSet:
        """The set a part is checked in."""
        return loads if self.eurocode else "structure"

    @property
    def map_gust_m_s(self) -> float:
        """The three-second gust at 10 m in the open that stands for the map's figure."""
        return map_gust_m_s(self.site.basis, self.place.wind_speed_m_s)

    @property
    def directionality(self) -> float:
        """Kd of the code's check; c_dir is 1."""
        return 1.0 if self.eurocode else DIRECTIONALITY

    @property
    def off_centre(self) -> float:
        """How far to one side the wind may act, over the width."""
        return eurocode.OFF_CENTRE if self.eurocode else OFF_CENTRE

    @property
    def lopsided(self) -> float:
        """Load of the worse side of the strongback over its even share: 1 + 4 times the wind's place off centre."""
        return 1.0 + 4.0 * self.off_centre

    @property
    def module_sides_m(self) -> tuple[float, float]:
        """Of a module along the hinge and along the chord."""
        module = self.array.module
        sides = (module.width_m, module.length_m)
        return sides if self.array.lie == "portrait" else (sides[1], sides[0])

    @property
    def rail_share_m(self) -> float:
        """Width of glass one rail bears."""
        return self.geometry.width_m / (self.array.columns * self.frame.rails)

    def _zone(self, area_m2: float) -> float:
        g = self.geometry
        return corner_factor(area_m2, g.width_m, g.chord_m, g.hinge_height_m)

    @property
    def module_zone(self) -> float:
        """Pressure on the corner module over that of the worse half; the Eurocode's figures have it in them."""
        wide_m, long_m = self.module_sides_m
        return 1.0 if self.eurocode else self._zone(wide_m * long_m)

    @property
    def rail_zone(self) -> float:
        """The same for the outer rail: its reach times its width, no narrower than a third of the reach."""
        reach_m = max(self.geometry.upper_m, self.geometry.lower_m)
        return 1.0 if self.eurocode else self._zone(reach_m * max(self.rail_share_m, reach_m / 3.0))

    @property
    def tilt_error_deg(self) -> float:
        """How far the wind may meet the array steeper or flatter than it is set: the owner's error and the ground's slope."""
        return SET_WITHIN_DEG + self.place.ground_slope_deg

    @cached_property
    def weak_pier(self) -> Pier:
        """The pier in soil weakened by the Eurocode's factors."""
        return weakened(self.pier)

    def with_footing(self, footing: Footing) -> Setting:
        """The same mount on another pier."""
        return replace(self, footing=footing, pier=pier_in(footing, self.place))

    @property
    def array_weight_n(self) -> float:
        """Weight of all that tips."""
        return self.geometry.mass_kg * GRAVITY_M_S2

    @property
    def pole_height_m(self) -> float:
        """Pole over the ground."""
        return self.geometry.hinge_height_m - self.geometry.pole_top_below_m

    @property
    def pole_weight_n(self) -> float:
        """Weight of the pole over the ground."""
        return self.pipe.mass_kg_m * self.pole_height_m * GRAVITY_M_S2

    @property
    def _top_m(self) -> float:
        g = self.geometry
        return float(g.hinge_height_m + g.upper_m * np.sin(np.radians(g.steepest_tilt_deg)))

    @cached_property
    def gust_factor(self) -> float:
        """G of a given gust: Eq. 26.11-6 at the highest the array may stand, no less than 0.85; flexible where it sways.

        Under Eurocode cs cd = 1 (lower than 15 m).
        """
        if self.eurocode:
            return 1.0
        return self._flexible(gust_factor(self._top_m, self.geometry.width_m, self.site.basis, self.site.exposure))  # fmt: skip

    @cached_property
    def code_gust_factor(self) -> float:
        """G of the code's check: 0.85 where it is rigid."""
        return 1.0 if self.eurocode else self._flexible(RIGID_GUST_FACTOR)

    def _flexible(self, rigid: float) -> float:
        if self.sway_hz >= LEAST_NATURAL_HZ:
            return rigid
        return flexible_gust_factor(
            self._top_m, self.geometry.width_m, self.site.basis, self.site.exposure, self.map_gust_m_s, self.sway_hz,
        )  # fmt: skip

    @cached_property
    def sway_hz(self) -> float:
        """Natural frequency of the pole with the array on top, foot held fast: sqrt(3 E I / (m H^3)) / 2 pi.

        A quarter of the pole's own mass counts (Rayleigh's share, 33/140, rounded up).  Soil makes it slower.
        """
        height_m = self.geometry.hinge_height_m
        mass_kg = self.geometry.mass_kg + 0.25 * self.pole_weight_n / GRAVITY_M_S2
        stiffness = 3.0 * self.pipe.stiffness_pa * self.pipe.inertia_m4 / height_m**3
        return float(np.sqrt(stiffness / mass_kg) / (2.0 * np.pi))

    @cached_property
    def card_tilts_deg(self) -> Floats:
        """Both ends of the travel and every whole degree between."""
        low, high = self.geometry.least_tilt_deg, self.geometry.steepest_tilt_deg
        return np.unique(np.concatenate(([low, high], np.arange(np.ceil(low), np.floor(high) + 1))))


def setting_of(
    place: Place,
    array: NewArray,
    mount: Mount,
    footing: Footing,
    drive: Drive | None,
    lock: Lock | None,
    frame: Frame | None = None,
    prop: Lock | None = None,
) -> Setting:
    """Sections, strengths and geometry from the owner's sections.

    Raises:
        Wrong: No such pipe or tube.
    """
    beam = tube_section(mount.strongback)
    geometry = geometry_of(mount, array, _strongback_kg(mount, array, beam))
    pipe = pipe_section(mount.pole)
    site = replace(site_of(place), blocked=mount.blocked_below)
    thick_enough(pipe, "EN" if site.eurocode else "AISC")
    fitted, refitted = (drive, None) if drive is None else as_measured(drive)
    return Setting(
        place=place,
        array=array,
        mount=mount,
        footing=footing,
        drive=fitted,
        lock=lock,
        geometry=geometry,
        pipe=pipe,
        pole=pole_strength(pipe, geometry.hinge_height_m, "EN" if site.eurocode else "AISC"),
        beam=beam,
        pier=pier_in(footing, place),
        site=site,
        frame=frame or Frame(),
        prop=prop,
        refit=refitted,
    )  # fmt: skip


def exposure_counted(place: Place) -> str:
    """The exposure as it counts: B is C where rough ground does not reach 1,500 ft on every side (ASCE 7, 26.7.3)."""
    short = place.rough_ground_m is not None and place.rough_ground_m < WOODS_M
    return "C" if place.exposure == "B" and short else place.exposure


def site_of(place: Place) -> SiteWind:
    """The place as the wind feels it."""
    exposure = exposure_counted(place)
    hill = None
    if place.hill is not None and place.wind_basis != EN:
        h = place.hill
        hill = Hill(h.shape, h.height_m, h.half_length_m, h.from_crest_m, h.side == "beyond the crest", exposure)  # fmt: skip
    return SiteWind(
        exposure,
        place.topographic_factor,
        elevation_factor(place.elevation_m),
        place.wind_basis,
        hill,
    )


def _strongback_kg(mount: Mount, array: NewArray, beam: TubeSection) -> float:
    if mount.strongback_mass_kg is not None:
        return mount.strongback_mass_kg
    portrait = array.lie == "portrait"
    grid = grid_of(array.module, array.columns, array.rows, portrait, array.gap_m, array.slot_m)
    return beam.mass_kg_m * grid.width_m
