"""How it is built, first version: pieces, pour, trench, lifts, steps and cautions."""

from __future__ import annotations

from polestead.build.concrete import concrete_of
from polestead.build.result import BuildResult, Piece
from polestead.build.steps import CAUTIONS, STEPS
from polestead.homestead.model import CableRun, Footing, Mount, NewArray
from polestead.mount.geometry import Geometry
from polestead.wiring.trench.burial import ribbon_words
from polestead.wiring.trench.closing import CABLE_SLACK_SHARE

TRENCH_WIDTH_M = 0.3  # a narrow digger bucket: common practice, no source
STEEL_KG_M3 = 7850.0
TWIST_BAR_M = 0.016  # No. 5 bar


def pole_length_m(mount: Mount, footing: Footing) -> float:
    """Pole from its foot in the pier to its top under the hinge."""
    return footing.pole_depth_m + mount.hinge_height_m - mount.pole_top_below_hinge_m


def build_of(
    array: NewArray,
    mount: Mount,
    footing: Footing,
    run: CableRun,
    geometry: Geometry,
    pole_outside_m: float,
    pole_kg_m: float,
    strongback_kg: float,
    soil: str,
) -> BuildResult:
    """The list of pieces, the pour, the trench, the lifts.

    Args:
        array: The array section.
        mount: The mount section.
        footing: The footing section.
        run: The run section.
        geometry: The linked geometry.
        pole_outside_m: Pole's outside diameter [m].
        pole_kg_m: Pole's mass per length [kg/m].
        strongback_kg: Strongback's mass [kg].
        soil: Soil class, for the spoil.
    """
    length_m = pole_length_m(mount, footing)
    pole_kg = length_m * pole_kg_m
    frame_kg = strongback_kg + mount.rails_mass_kg
    lifts = {
        "the pole": pole_kg,
        "strongback, rails and hinge together": frame_kg,
        "one module": array.module.mass_kg,
    }
    heaviest = max(lifts, key=lambda name: lifts[name])
    return BuildResult(
        pieces=_pieces(array, mount, footing, run, geometry, length_m, pole_kg, strongback_kg),
        tipping_mass_kg=geometry.mass_kg,
        heaviest_lift_kg=lifts[heaviest],
        heaviest_lift=heaviest,
        concrete=concrete_of(
            footing.diameter_m,
            footing.depth_m,
            footing.collar_m,
            pole_outside_m,
            footing.pole_depth_m,
            soil,
        ),
        trench_m=run.length_m,
        trench_m3=run.length_m * TRENCH_WIDTH_M * run.cover_m,
        steps=STEPS,
        cautions=CAUTIONS,
    )


def _pieces(
    array: NewArray,
    mount: Mount,
    footing: Footing,
    run: CableRun,
    geometry: Geometry,
    pole_m: float,
    pole_kg: float,
    strongback_kg: float,
) -> tuple[Piece, ...]:
    count = array.columns * array.rows
    bar_m = footing.diameter_m * 0.8
    bar_kg = 2.0 * bar_m * 3.1416 / 4.0 * TWIST_BAR_M**2 * STEEL_KG_M3
    pieces = [
        Piece("module", count, f"{array.module.power_w:.0f} W", array.module.length_m, count * array.module.mass_kg, "on the rails"),
        Piece("pole", 1, mount.pole.written, pole_m, pole_kg, "from the pier to the hinge"),
        Piece("strongback", 1, mount.strongback, geometry.width_m, strongback_kg, "along the hinge"),
        Piece("rails, clamps and hinge", 1, "as weighed", None, mount.rails_mass_kg, "under the modules"),
        Piece("hinge pin", 2, f"{mount.hinge_pin_steel}, {mount.hinge_pin_m * 1000:.0f} mm round", None, 0.0, "through the hinge ears"),
        Piece("run cable, each conductor", 2, f"{run.size} {run.metal}", run.length_m * (1.0 + CABLE_SLACK_SHARE), 0.0, f"in the trench, {run.method}"),
        Piece("warning ribbon", 1, "plastic", run.length_m, 0.0, ribbon_words(run.cover_m)),
    ]  # fmt: skip
    if footing.twist_bars:
        pieces.append(
            Piece(
                "twist bar",
                2,
                "16 mm reinforcing bar",
                bar_m,
                bar_kg,
                "through the pole's foot, crosswise",
            )
        )
    return tuple(pieces)
