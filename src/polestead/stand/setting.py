"""All that stands still while wind and tilt change: the array, its pole, its pier, its place."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from polestead.footing.pier import Pier, pier_of
from polestead.homestead.model import Drive, Footing, Lock, Mount, NewArray, Place
from polestead.loads.pressure import SiteWind, elevation_factor, gust_factor
from polestead.mount.geometry import Geometry, geometry_of, grid_of
from polestead.strength.parts import TubeSection, tube_section
from polestead.strength.pole import PipeSection, PoleStrength, pipe_section, pole_strength

Floats = NDArray[np.float64]
GRAVITY_M_S2 = 9.80665
MPH_M_S = 0.44704


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

    @cached_property
    def gust_factor(self) -> float:
        """G of Eq. 26.11-6 at the highest the array may stand, no less than 0.85."""
        g = self.geometry
        top_m = g.hinge_height_m + g.upper_m * np.sin(np.radians(g.steepest_tilt_deg))
        return gust_factor(float(top_m), g.width_m, self.site.basis, self.site.exposure)

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
) -> Setting:
    """Sections, strengths and geometry from the owner's sections.

    Raises:
        Wrong: No such pipe or tube.
    """
    beam = tube_section(mount.strongback)
    geometry = geometry_of(mount, array, _strongback_kg(mount, array, beam))
    pipe = pipe_section(mount.pole)
    site = SiteWind(
        place.exposure,
        place.topographic_factor,
        elevation_factor(place.elevation_m),
        place.wind_basis,
    )
    return Setting(
        place=place,
        array=array,
        mount=mount,
        footing=footing,
        drive=drive,
        lock=lock,
        geometry=geometry,
        pipe=pipe,
        pole=pole_strength(pipe, geometry.hinge_height_m),
        beam=beam,
        pier=pier_of(footing, place.soil, place.frost_soil, place.frost_depth_m),
        site=site,
    )


def _strongback_kg(mount: Mount, array: NewArray, beam: TubeSection) -> float:
    if mount.strongback_mass_kg is not None:
        return mount.strongback_mass_kg
    portrait = array.lie == "portrait"
    grid = grid_of(array.module, array.columns, array.rows, portrait, array.gap_m, array.slot_m)
    return beam.mass_kg_m * grid.width_m
