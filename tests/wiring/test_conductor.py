from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.base.table import table
from polestead.wiring.run.conductor import (
    area_mm2,
    conductor_of,
    drop_v,
    share_left,
    size_words,
    sizes,
)

METALS = ("copper", "aluminium")
FAMILIES = [(metal, kind) for metal in METALS for kind in ("AWG", "mm2")]


def _family(metal: str, kind: str) -> list[str]:
    return [size for size in sizes(metal) if size.endswith(kind)]


@pytest.mark.parametrize(
    ("written", "read"),
    [("4 AWG", "4 AWG"), (" 2/0awg", "2/0 AWG"), ("AWG 10 gauge", "10 AWG"), ("#6", "6 AWG"), ("16 mm2", "16 mm2"), ("16.0mm²", "16 mm2"), ("2.5 mm2", "2.5 mm2")],
)  # fmt: skip
def test_a_size_is_read_as_owners_write_it(written: str, read: str) -> None:
    assert size_words(written) == read


@pytest.mark.parametrize("written", ["4", "", "thick", "4 mm", "-4 AWG", "4/0", "mm2", "4 AWG 6"])
def test_what_could_be_either_kind_is_refused(written: str) -> None:
    with pytest.raises(ValueError, match="no wire size"):
        size_words(written)


@pytest.mark.parametrize(
    ("written", "metal"),
    [("5 AWG", "copper"), ("0.75 mm2", "copper"), ("14 AWG", "aluminium"), ("4", "copper"), ("500 mm2", "copper")],
)  # fmt: skip
def test_an_unknown_size_is_told_with_the_known_ones(written: str, metal: str) -> None:
    with pytest.raises(Wrong) as caught:
        conductor_of(written, metal)
    (problem,) = caught.value.problems
    assert (problem.section, problem.key) == ("run", "size")
    assert written in problem.given
    assert "4 AWG" in problem.allowed
    assert "16 mm2" in problem.allowed


def test_every_row_of_the_resistance_table_agrees_with_its_metal() -> None:
    """Annealed copper 1.7241, aluminium 2.8264 microhm cm at 20 C, 2 % for the lay of the strands (IEC 60028, 60889).

    A slipped digit or a row of the solid column (2 % less) shows; a metric maximum may lie up to 11.2 % over it (50 mm2 is made of less).
    """
    ohm_mm2_per_m = {"copper": 0.017241, "aluminium": 0.028264}
    for row in table("wiring", "run/resistance"):
        size, metal = row["size"], row["metal"]
        if size not in sizes(metal):
            continue
        by_metal = 1.02 * ohm_mm2_per_m[metal] / area_mm2(size)
        ratio = conductor_of(size, metal).ohm_per_m_20c / by_metal
        low, high = (0.991, 1.009) if size.endswith("AWG") else (0.98, 1.115)
        assert low < ratio < high, (size, metal, ratio)


def test_solid_wire_is_not_taken_for_stranded() -> None:
    solid_ohm_per_kft = {"14 AWG": 3.07, "12 AWG": 1.93, "10 AWG": 1.21, "8 AWG": 0.764}
    for size, solid in solid_ohm_per_kft.items():
        assert conductor_of(size, "copper").ohm_per_m() * 304.8 > 1.01 * solid


def test_ampacities_are_not_those_of_old_editions() -> None:
    assert conductor_of("14 AWG", "copper").at_60_a != 20.0
    assert conductor_of("12 AWG", "copper").at_60_a != 25.0
    assert conductor_of("3 AWG", "copper").at_90_a != 110.0
    assert conductor_of("1 AWG", "copper").at_90_a != 150.0
    assert conductor_of("8 AWG", "aluminium").at_60_a != 30.0
    assert conductor_of("6 AWG", "aluminium").at_90_a != 60.0


@pytest.mark.parametrize("column", [60, 75, 90])
def test_the_surrounding_follows_the_heat_formula(column: int) -> None:
    """sqrt((Tc - Ta)/(Tc - 30)) at the upper end of each row, printed to two places."""
    for about in range(10, column - 4, 5):
        by_formula = ((column - about) / (column - 30)) ** 0.5
        assert share_left(about, column) == pytest.approx(by_formula, abs=0.0051)


@pytest.mark.parametrize(("metal", "kind"), FAMILIES)
def test_thicker_wire_never_drops_more_and_never_carries_less(metal: str, kind: str) -> None:
    wires = [conductor_of(size, metal) for size in _family(metal, kind)]
    assert len(wires) >= 7
    for thin, thick in pairwise(wires):
        assert thick.ohm_per_m() < thin.ohm_per_m()
        assert thick.at_75_a >= thin.at_75_a
        assert thick.at_90_a >= thin.at_90_a


def test_a_metric_wire_is_rated_no_better_than_a_thinner_american_one() -> None:
    wire = conductor_of("16 mm2", "copper")
    assert wire.rated_as == "6 AWG"
    assert area_mm2(wire.rated_as) <= wire.area_mm2
    assert wire.at_75_a == conductor_of("6 AWG", "copper").at_75_a


@given(
    short=st.floats(0.5, 1000.0), more=st.floats(0.0, 1000.0), current=st.floats(0.1, 100.0), size=st.sampled_from(sizes("copper"))
)  # fmt: skip
def test_a_longer_run_never_loses_less(short, more, current, size) -> None:
    ohm = conductor_of(size, "copper").ohm_per_m()
    assert drop_v(short + more, current, ohm) >= drop_v(short, current, ohm)


@given(low=st.floats(-60.0, 120.0), more=st.floats(0.0, 60.0), column=st.sampled_from([60, 75, 90]))
def test_a_warmer_surrounding_never_leaves_more(low, more, column) -> None:
    assert share_left(low + more, column) <= share_left(low, column)
