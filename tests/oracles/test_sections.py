"""Pipes and tubes against a section library.  Run by `make oracles`."""

from __future__ import annotations

import pytest

from polestead.homestead.sentences import pole_words
from polestead.strength.pole import pipe_section
from polestead.strength.tubes import tube_section

library = pytest.importorskip(
    "sectionproperties.pre.library", reason="the section library is installed by `make oracles`"
)
pytestmark = pytest.mark.filterwarnings("ignore")


def worked(shape):
    from sectionproperties.analysis import Section

    shape.create_mesh(mesh_sizes=[0.0])
    section = Section(shape)
    section.calculate_geometric_properties()
    section.calculate_plastic_properties()
    section.calculate_warping_properties()
    return section


@pytest.mark.parametrize(
    "words", ["6 in schedule 40 A53 B", "8 in schedule 80 A53 B", "CHS 219.1x12.5 S355"]
)
def test_a_pipe(words: str) -> None:
    pipe = pipe_section(pole_words(words))
    shape = library.circular_hollow_section(
        d=pipe.outside_m * 1e3, t=pipe.design_wall_m * 1e3, n=256
    )
    section = worked(shape)
    # a polygon of 256 sides lies within .02 % of the circle
    assert pipe.area_m2 * 1e6 == pytest.approx(section.get_area(), rel=5e-4)
    assert pipe.inertia_m4 * 1e12 == pytest.approx(section.get_ic()[0], rel=5e-4)
    assert pipe.plastic_m3 * 1e9 == pytest.approx(section.get_s()[0], rel=5e-4)
    assert 2.0 * pipe.inertia_m4 * 1e12 == pytest.approx(section.get_j(), rel=1e-3)


@pytest.mark.parametrize("words", ["SHS 150x150x6 S355", "RHS 80x40x3 S355"])
def test_a_tube(words: str) -> None:
    tube = tube_section(words)
    t = tube.design_wall_m * 1e3
    shape = library.rectangular_hollow_section(
        d=tube.depth_m * 1e3, b=tube.breadth_m * 1e3, t=t, r_out=2.0 * t, n_r=24
    )
    section = worked(shape)
    assert tube.area_m2 * 1e6 == pytest.approx(section.get_area(), rel=2e-3)
    assert tube.inertia_m4 * 1e12 == pytest.approx(section.get_ic()[0], rel=4e-3)
    assert tube.plastic_m3 * 1e9 == pytest.approx(section.get_s()[0], rel=6e-3)
