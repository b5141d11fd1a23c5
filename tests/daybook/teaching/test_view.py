from __future__ import annotations

import numpy as np

from polestead.daybook.teaching.series import expected_of, paired, seen_of
from polestead.daybook.teaching.trees import Tree
from polestead.daybook.teaching.view import view_fit
from tests.daybook.teaching.logs import log_of

SPRUCES = (Tree(3, 215.0, 290.0, 0.5, None, 0.0),)


def _fit(seed: int, times: float, days: int = 700, trees: tuple[Tree, ...] = SPRUCES):
    made = log_of(seed, days, "eye", lambda n, low, rng: np.log1p(low * (times - 1.0)))
    seen = seen_of(made.day, made.made_wh, charge=made.charge)
    pairs = paired(seen, expected_of(made.expected_wh, made.log_sd, low_sun_share=made.low_sun_share))  # fmt: skip
    return view_fit(pairs, np.zeros(pairs.days, dtype=bool), trees)


def test_trees_that_let_less_through_are_found_and_proposed_in_a_sentence() -> None:
    fits = [_fit(600 + n, 0.5) for n in range(5)]
    assert sum(fit.low <= 0.5 <= fit.high for fit in fits) >= 4
    assert all(fit.proposed for fit in fits)
    assert "lets_through_winter" in fits[0].sentence
    assert '"50 %"' in fits[0].sentence


def test_trees_as_in_the_file_are_left_alone() -> None:
    assert sum(_fit(620 + n, 1.0).proposed for n in range(6)) <= 2


def test_where_the_file_names_no_trees_it_asks_for_the_skyline() -> None:
    fit = _fit(630, 0.4, trees=())
    assert fit.proposed
    assert "Read the skyline again" in fit.sentence


def test_a_log_without_low_sun_says_nothing() -> None:
    days = np.datetime64("2026-05-01") + np.arange(120)
    pairs = paired(seen_of(days, np.full(120, 1e3)), expected_of(np.full(120, 1e3), np.full(120, 0.1)))  # fmt: skip
    assert view_fit(pairs, np.zeros(120, dtype=bool), SPRUCES) is None


def test_no_change_in_a_year_is_told_from_under_two_winters() -> None:
    fit = _fit(640, 0.8, days=300)
    assert (fit.a_year, fit.a_year_low, fit.a_year_high) == (0.0, 0.0, 0.0)
