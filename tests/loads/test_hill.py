"""Hill, ice, slow poles."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.loads.combinations import combinations
from polestead.loads.hill import Hill, counts, topographic_factor
from polestead.loads.ice import ice_weight_n
from polestead.loads.pressure import (
    SiteWind,
    flexible_gust_factor,
    gust_factor,
    velocity_pressure_pa,
)

CREST = Hill("ridge", 30.0, 60.0, 0.0, False, "C")


def test_by_hand_on_the_crest_of_a_ridge():
    """H/Lh .5: K1 .725, K2 1, K3 exp(-3 x 10 / 60)."""
    assert float(topographic_factor(CREST, 10.0)) == pytest.approx((1 + 0.725 * np.exp(-0.5)) ** 2)


@given(st.floats(0.0, 200.0), st.floats(0.0, 60.0), st.booleans())
def test_away_from_the_crest_and_high_up_it_fades(x, z, beyond):
    here = replace(CREST, from_crest_m=x, beyond_crest=beyond)
    farther = replace(here, from_crest_m=x + 5.0)
    assert (
        1.0 <= float(topographic_factor(farther, z)) <= float(topographic_factor(here, z)) + 1e-12
    )
    assert float(topographic_factor(here, z + 5.0)) <= float(topographic_factor(here, z)) + 1e-12


def test_a_low_or_gentle_hill_does_not_count():
    assert not counts(replace(CREST, height_m=4.0, half_length_m=8.0))
    assert not counts(replace(CREST, half_length_m=200.0))
    assert float(topographic_factor(replace(CREST, half_length_m=200.0), 3.0)) == 1.0


def test_behind_an_escarpment_the_wind_stays_fast_longer():
    before = replace(CREST, shape="escarpment", from_crest_m=60.0)
    behind = replace(before, beyond_crest=True)
    assert float(topographic_factor(behind, 3.0)) > float(topographic_factor(before, 3.0))


def test_the_hill_enters_the_pressure_once():
    flat = SiteWind("C", 1.0, 1.0, "ASCE 7-16")
    hilly = replace(flat, hill=CREST)
    ratio = float(velocity_pressure_pa(40.0, 4.0, hilly) / velocity_pressure_pa(40.0, 4.0, flat))
    assert ratio == pytest.approx(float(topographic_factor(CREST, 4.0)))


def test_ice_comes_with_its_own_combinations_and_weight():
    names = [c.name for c in combinations("ASCE 7-16", ice=True)]
    assert "D + 0.7 Di + 0.7 Wi + S" in names
    # half an inch on 16 m2: .8 pi t A at 56 lb/ft3
    assert ice_weight_n(0.0127, 16.0) == pytest.approx(0.8 * np.pi * 0.0127 * 16.0 * 8797, rel=1e-3)


def test_a_slow_pole_takes_a_larger_gust_factor_and_a_quick_one_the_rigid():
    rigid = gust_factor(5.1, 4.6, "ASCE 7-16", "C")
    slow = [flexible_gust_factor(5.1, 4.6, "ASCE 7-16", "C", 45.0, hz) for hz in (0.4, 0.7, 0.99)]
    assert slow == sorted(slow, reverse=True)
    assert slow[-1] > rigid
    quick = flexible_gust_factor(5.1, 4.6, "ASCE 7-16", "C", 45.0, 30.0)
    assert quick == pytest.approx(rigid, rel=0.03)
