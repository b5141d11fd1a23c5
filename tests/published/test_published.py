"""Other people's numbers against ours, every row of every file beside this one."""

from __future__ import annotations

from collections import Counter

import numpy as np
import pytest

from tests.published.cases import STATUSES, Case, cases

ALL = tuple(cases())


@pytest.mark.parametrize("case", ALL, ids=lambda case: case.identity)
def test_ours_agrees_with_the_published_number(case: Case) -> None:
    np.testing.assert_allclose(
        np.atleast_1d(case.ours()), case.published, rtol=case.rel_tolerance, atol=case.abs_tolerance
    )


@pytest.mark.parametrize("case", ALL, ids=lambda case: case.identity)
def test_every_row_says_where_it_comes_from(case: Case) -> None:
    assert case.work
    assert case.place
    assert case.status in STATUSES
    assert len(case.why_this_tolerance) > 10
    assert case.abs_tolerance > 0.0 or case.rel_tolerance > 0.0
    assert case.function.startswith(("polestead.", "tests.published.adapters"))


def test_no_row_stands_twice() -> None:
    assert [
        name for name, count in Counter(case.identity for case in ALL).items() if count > 1
    ] == []
