"""Pole and rails against a frame library: P-delta, continuous beams.  Run by `make oracles`."""

from __future__ import annotations

import numpy as np
import pytest

from polestead.homestead.sentences import pole_words
from polestead.strength.pole import enlarged, pipe_section, tip_moves_m
from polestead.strength.rails import evenly_loaded

Pynite = pytest.importorskip("Pynite", reason="the frame library is installed by `make oracles`")
pytestmark = pytest.mark.filterwarnings("ignore")

ELEMENTS = 20


def cantilever(pipe, level_n: float, down_n: float, height_m: float):
    """Tip's move and foot's moment by P-delta."""
    frame = Pynite.FEModel3D()
    frame.add_material("steel", pipe.stiffness_pa, pipe.stiffness_pa / 2.6, 0.3, 7850.0)
    frame.add_section("pipe", pipe.area_m2, pipe.inertia_m4, pipe.inertia_m4, 2.0 * pipe.inertia_m4)
    for n in range(ELEMENTS + 1):
        frame.add_node(f"N{n}", 0.0, height_m * n / ELEMENTS, 0.0)
    for n in range(ELEMENTS):
        frame.add_member(f"M{n}", f"N{n}", f"N{n + 1}", "steel", "pipe")
    frame.def_support("N0", *[True] * 6)
    frame.add_node_load(f"N{ELEMENTS}", "FX", level_n)
    frame.add_node_load(f"N{ELEMENTS}", "FY", -down_n)
    frame.analyze_PDelta()
    return frame.nodes[f"N{ELEMENTS}"].DX["Combo 1"], abs(frame.nodes["N0"].RxnMZ["Combo 1"])


@pytest.mark.parametrize("down_n", [0.0, 6.7e3, 44.5e3])
def test_the_poles_second_order(down_n: float) -> None:
    pipe, height, level = pipe_section(pole_words("6 in schedule 40 A53 B")), 3.81, 6672.0
    moves, moment = cantilever(pipe, level, down_n, height)
    assert tip_moves_m(pipe, level, down_n, height) == pytest.approx(moves, rel=2e-4)
    euler = np.pi**2 * pipe.stiffness_pa * pipe.inertia_m4 / (2.0 * height) ** 2
    # the usual 1/(1 - P/Pe) is over the exact tan u / u of the moment: .3 % at P/Pe .017, 2.2 % at .12
    ours = level * height * float(enlarged(np.array(down_n), euler))
    assert moment <= ours * (1.0 + 1e-6)
    assert ours == pytest.approx(moment, rel=1e-6 + 0.2 * down_n / euler)


@pytest.mark.parametrize(
    ("start", "end", "supports"),
    [
        (-1.8, 1.8, (-0.9, 0.0, 0.9)),
        (-1.5, 2.1, (-0.8, 0.0, 0.8)),
        (0.0, 3.0, (0.2, 1.0, 1.9, 2.7)),
    ],
)
def test_the_rails_three_moments(start: float, end: float, supports: tuple[float, ...]) -> None:
    beam = Pynite.FEModel3D()
    beam.add_material("steel", 200e9, 77e9, 0.3, 7850.0)
    beam.add_section("rail", 1e-3, 1e-6, 1e-6, 1e-6)
    places = sorted({start, end, *supports})
    for n, x in enumerate(places):
        beam.add_node(f"N{n}", x, 0.0, 0.0)
        if x in supports:
            beam.def_support(f"N{n}", True, True, True, True, False, False)
    largest = 0.0
    for n in range(len(places) - 1):
        beam.add_member(f"M{n}", f"N{n}", f"N{n + 1}", "steel", "rail")
        beam.add_member_dist_load(f"M{n}", "Fy", -1.0, -1.0)
    beam.analyze(check_statics=False)
    for n in range(len(places) - 1):
        member = beam.members[f"M{n}"]
        largest = max(largest, abs(member.max_moment("Mz")), abs(member.min_moment("Mz")))
    bent = evenly_loaded(start, end, supports)
    assert bent.largest_m2 == pytest.approx(largest, rel=2e-3)
    reactions = [beam.nodes[f"N{places.index(x)}"].RxnFY["Combo 1"] for x in supports]
    np.testing.assert_allclose(bent.reactions_m, reactions, rtol=1e-6)
