"""How it is built: pieces, cut list, plates, bolts, metals, pour, trench, lifts, order of the modules, steps and cautions."""

from __future__ import annotations

from dataclasses import replace

from polestead.base.show import in_style
from polestead.build.cut_list import cut_list, lengths_guessed
from polestead.build.given import Given
from polestead.build.ground.concrete import Concrete, Pour, concrete_of
from polestead.build.ground.trench import trench_of
from polestead.build.lifts.braces import braces_of
from polestead.build.lifts.lift import module_gust_m_s
from polestead.build.lifts.raised import hanging_of, heaviest, lifts_of, unweighed
from polestead.build.pieces.bolts import joints_of
from polestead.build.pieces.coating import coating_of
from polestead.build.pieces.ground import ground_pieces
from polestead.build.pieces.held import held_pieces
from polestead.build.pieces.hinge import hinge_kg, hinge_pieces
from polestead.build.pieces.piece import marked, priced
from polestead.build.pieces.plates import plates_of
from polestead.build.pieces.steel import steel_pieces
from polestead.build.pieces.welds import welds_of
from polestead.build.result import BuildResult
from polestead.build.steps import ACTS, CAUTIONS, SIGN_OFFS, STEPS


def build_of(g: Given) -> BuildResult:
    """The whole of it.

    Args:
        g: Sections of the file, geometry, pole, half-built states.
    """
    listed = (steel_pieces(g), hinge_pieces(g), held_pieces(g), ground_pieces(g))
    on_frame = {id(piece) for one in listed[:3] for piece in one.pieces}
    weighed = (replace(piece, to_weigh=piece.mass_kg is None and id(piece) in on_frame) for one in listed for piece in one.pieces)  # fmt: skip
    pieces = priced(marked(weighed), g.prices)
    plates, lifts, hanging = plates_of(g), lifts_of(g), hanging_of(g)
    trench = trench_of(
        g.run.length_m, g.run.in_house_m, g.run.cover_m, g.place.soil, g.contents, g.trench_level_m, g.trench_floor_m, g.style
    )  # fmt: skip
    most = heaviest(lifts)
    return BuildResult(
        pieces=pieces,
        not_given=tuple(word for one in listed for word in one.not_given),
        cut_list=cut_list(g, pieces),
        lengths_guessed=lengths_guessed(g, pieces),
        plates=plates,
        joints=joints_of(g),
        welds=welds_of(g),
        metals=coating_of(g),
        tipping_mass_kg=g.geometry.mass_kg,
        heaviest_lift_kg=most.mass_kg or 0.0,
        heaviest_lift=most.name,
        concrete=pour_of(g),
        trench=trench,
        lifts=lifts,
        braces=braces_of(g.pole_m * g.pipe.mass_kg_m, g.pipe.outside_m, g.pole_over_ground_m, g.footing.pole_depth_m),
        hanging=hanging,
        checks=(
            *hanging.checks,
            *(check for plate in plates for check in plate.checks),
            *trench.checks,
        ),
        notes=notes_of(g),
        steps=STEPS,
        cautions=CAUTIONS,
        acts=ACTS,
        sign_offs=SIGN_OFFS,
    )  # fmt: skip


def _rails_mass(g: Given) -> list[str]:
    """mount.rails_mass against what the pieces in it weigh by their size."""
    file_kg, rails_kg, hinge = g.mount.rails_mass_kg, g.rails_kg, hinge_kg(g)
    if rails_kg is None:
        return []
    pieces = f"{g.rails} rails of {g.frame.rail} {g.heavy(rails_kg)}" + (f", the hinge's ears, lugs and pins {g.heavy(hinge)}" if hinge else "")  # fmt: skip
    if rails_kg + hinge > file_kg:
        return [
            f"mount.rails_mass says {g.heavy(file_kg)} for rails, clamps and hinge, but by their sizes: {pieces}. One of the two is wrong. "
            "The lifts take the heavier; balance, pole and pier take rails_mass until you mend it."
        ]  # fmt: skip
    more = ", ".join(("clamps", *unweighed(g)))
    return [
        f"Of mount.rails_mass, {g.heavy(file_kg)}: {pieces}. That leaves {g.heavy(file_kg - rails_kg - hinge)} for {more}. Lifts, balance, pole and pier all take rails_mass: weigh what is left, and mend it."
    ]  # fmt: skip


def pour_of(g: Given) -> Concrete:
    """The pier's concrete, and the soil out of its hole."""
    f = g.footing
    pour = Pour(
        f.diameter_m, f.depth_m, f.collar_m, g.pipe.outside_m, g.pipe.mass_kg_m / _density(g), f.pole_depth_m, f.pole_filled,
        f.concrete_pa, g.freezes, g.eurocode, g.style == "metric", g.metric,
    )  # fmt: skip
    return concrete_of(pour, g.place.soil)


def _density(g: Given) -> float:
    return 2700.0 if g.pole_is_aluminium else 7850.0


def notes_of(g: Given) -> tuple[str, ...]:
    """What does not fit together in the file, and what to know before the first lift."""
    said = []
    said += _rails_mass(g)
    module = g.array.module
    gust = module_gust_m_s(module.mass_kg, module.length_m * module.width_m)
    said.append(f"A module held upright is pushed with half its weight by a gust of {in_style(gust, 'm/s', g.style)} at the module itself: two people cannot hold it in a stronger one.")  # fmt: skip
    if g.footing.depth_m > 1.2:
        said.append("The pier hole is never entered: bars, pole and levels are set from above; it is planked over whenever nobody stands beside it.")  # fmt: skip
    return tuple(said)
