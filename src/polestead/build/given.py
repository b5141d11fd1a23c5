"""What the pieces, lifts and pours are made from: the sections of the file and what lower rooms worked out."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from polestead.base.show import Style, cut_length, in_style
from polestead.homestead.model import (
    CableRun,
    Drive,
    Footing,
    Frame,
    Lock,
    Mount,
    NewArray,
    Place,
    Prices,
    Shop,
)
from polestead.mount.geometry import Geometry, Grid, grid_of
from polestead.stand.result import HalfBuilt
from polestead.strength.pole import PipeSection, material
from polestead.strength.tubes import TubeSection, tube_section
from polestead.wiring.trench.wall import Bought

INCH_M = 0.0254
FOOT_M = 0.3048
FREEZES_UNDER_C = 0.0
BEARINGS = 2  # of the hinge


@dataclass(frozen=True)
class Given:
    """One mount to be built.

    Attributes:
        place, array, mount, footing, frame, run, drive, lock, prop, shop, prices: Sections of the file.
        metric: Whether the file is in metric units: lengths sold, the saw's width and the order follow.
        geometry: The linked geometry.
        pipe: The pole's section.
        strongback_kg: Weighed, or from its size.
        half_built: States on the way up, with the gust each stands to.
        contents: What lies in the trench, from the bottom up.
        bought: Risers, the pipe down the pole, the box at the wall and what goes on inside, as the trench tells them.
        trench_level_m, trench_floor_m: Length along the trench and depth of its floor, where the run was taken apart.
        earth_wire: Size and metal of the earth wire in the trench: the file's, or else the least lawful.
        shown: In whose units sentences are written; None: the file's.
    """

    place: Place
    array: NewArray
    mount: Mount
    footing: Footing
    frame: Frame
    run: CableRun
    drive: Drive | None
    lock: Lock | None
    prop: Lock | None
    shop: Shop
    prices: Prices
    metric: bool
    geometry: Geometry
    pipe: PipeSection
    strongback_kg: float
    half_built: tuple[HalfBuilt, ...] = ()
    contents: tuple[str, ...] = ()
    bought: tuple[Bought, ...] = ()
    trench_level_m: float | None = None
    trench_floor_m: float | None = None
    earth_wire: str | None = None
    shown: Style | None = None

    @property
    def style(self) -> Style:
        """In whose units sentences are written."""
        return self.shown or ("metric" if self.metric else "feet")

    def sold(self, metres: float) -> str:
        """A size as the yard names it, in the file's units whatever the sentence is in: rounds, plates, bolts."""
        return cut_length(metres, "metric" if self.metric else "feet")

    def long(self, metres: float) -> str:
        """A length in a sentence."""
        return cut_length(metres, self.style)

    def heavy(self, kilograms: float) -> str:
        """A mass in a sentence."""
        return in_style(kilograms, "kg", self.style)

    @property
    def modules(self) -> int:
        """How many."""
        return self.array.columns * self.array.rows

    @cached_property
    def grid(self) -> Grid:
        """How they lie."""
        a = self.array
        return grid_of(a.module, a.columns, a.rows, a.lie == "portrait", a.gap_m, a.slot_m)

    @property
    def module_sides_m(self) -> tuple[float, float]:
        """Of a module along the hinge and along the chord."""
        module = self.array.module
        sides = (module.width_m, module.length_m)
        return sides if self.array.lie == "portrait" else (sides[1], sides[0])

    @cached_property
    def beam(self) -> TubeSection:
        """The strongback's section."""
        return tube_section(self.mount.strongback)

    @cached_property
    def rail(self) -> TubeSection | None:
        """A rail's section, where the file has it."""
        return None if self.frame.rail is None else tube_section(self.frame.rail)

    @property
    def rails(self) -> int:
        """How many rails."""
        return self.array.columns * self.frame.rails

    @property
    def rails_kg(self) -> float | None:
        """Mass of the rails alone from their size, None where the file has no size."""
        return (
            None if self.rail is None else self.rails * self.geometry.chord_m * self.rail.mass_kg_m
        )

    @property
    def pole_over_ground_m(self) -> float:
        """Pole from the ground to its top under the hinge."""
        return self.mount.hinge_height_m - self.mount.pole_top_below_hinge_m

    @property
    def pole_m(self) -> float:
        """Pole from its foot in the pier to its top."""
        return self.footing.pole_depth_m + self.pole_over_ground_m

    @property
    def edge_m(self) -> float:
        """From the middle of an ear's hole to its nearest edge."""
        return self.frame.ear_edge_m or 2.0 * self.mount.hinge_pin_m

    @property
    def ear_height_m(self) -> float:
        """From an ear's weld to the middle of its hole."""
        return self.frame.ear_height_m or 2.0 * self.edge_m

    @property
    def middle_m(self) -> float | None:
        """Thickness of what turns between two ears, None where no ear is told."""
        ear_m = self.frame.ear_thickness_m
        return None if ear_m is None else self.frame.middle_thickness_m or 2.0 * ear_m

    @property
    def freezes(self) -> bool:
        """Whether the place knows frost."""
        return self.place.record_low_c < FREEZES_UNDER_C

    @property
    def eurocode(self) -> bool:
        """Whether the Eurocodes are the basis."""
        return self.place.wind_basis == "EN 1991-1-4"

    @property
    def kerf_m(self) -> float:
        """Width of a cut: common practice, no source, where the file has none."""
        if self.shop.kerf_m is not None:
            return self.shop.kerf_m
        return 0.003 if self.metric else INCH_M / 8.0

    @property
    def pole_is_aluminium(self) -> bool:
        """Whether the pole is of aluminium."""
        return float(material(self.mount.pole.material)["density_kg_m3"]) < 5000.0
