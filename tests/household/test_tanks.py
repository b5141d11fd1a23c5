"""Two tanks fitted to a maker's table: the owner's own, or a usual one."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.homestead.sentences import battery_row
from polestead.household.tanks import USUAL, USUAL_TANKS, fitted, given_over, tanks_of


def rows(*lines):
    return tuple(battery_row(line) for line in lines)


@pytest.mark.parametrize("kind", sorted(USUAL))
def test_the_figures_kept_are_the_fit_of_their_table(kind):
    table = np.array(USUAL[kind])
    found, kept = fitted(table[:, 0], table[:, 1]), USUAL_TANKS[kind]
    assert (found.holds, found.at_once, found.slow_per_h) == pytest.approx(
        (kept.holds, kept.at_once, kept.slow_per_h), rel=0.01
    )
    assert found.worst_miss <= kept.worst_miss


@given(st.floats(0.8, 1.5), st.floats(0.1, 0.9), st.floats(0.05, 3.0))
def test_tanks_are_found_again_from_the_table_they_make(holds, at_once, slow):
    hours = np.array([1.0, 3.0, 5.0, 10.0, 20.0, 100.0])
    found = fitted(hours, given_over(hours, holds, at_once, slow))
    again = given_over(hours, found.holds, found.at_once, found.slow_per_h)
    np.testing.assert_allclose(again, given_over(hours, holds, at_once, slow), rtol=2e-3)


def test_the_owners_table_counts():
    made = tanks_of(
        "flooded lead-acid",
        740.0,
        rows("850 Ah in 100 h", "740 Ah in 20 h", "655 Ah in 10 h", "560 Ah in 5 h"),
    )
    assert made != USUAL_TANKS["flooded lead-acid"]
    assert made.worst_miss < 0.05


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        (("740 Ah in 20 h", "650 Ah in 10 h"), "2 different rates"),
        (("850 Ah in 100 h", "740 Ah in 20 h", "760 Ah in 10 h", "560 Ah in 5 h"), "760 Ah in 10 h beside 740 Ah in 20 h"),
        (("425 Ah in 100 h", "370 Ah in 20 h", "328 Ah in 10 h", "280 Ah in 5 h"), "370 Ah in 20 h by the table"),
        (("745 Ah in 100 h", "740 Ah in 20 h", "735 Ah in 10 h", "150 Ah in 5 h"), "two tanks miss"),
    ],
)  # fmt: skip
def test_a_table_that_cannot_be_is_told(lines, told):
    with pytest.raises(Wrong) as wrong:
        tanks_of("flooded lead-acid", 740.0, rows(*lines))
    assert told in wrong.value.problems[0].given
