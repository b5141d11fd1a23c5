from __future__ import annotations

import numpy as np

from polestead.daybook.teaching.foresight import MonthRuns, drawn_sentence


def _runs(did, known, fuel=(0.0,), moves=(4, 20.0)) -> MonthRuns:
    return MonthRuns(np.array(did), np.array(known), np.array(fuel), *moves, 1.0)


def test_what_is_saved_is_said_as_a_span_beside_the_log() -> None:
    # 12 and 8 saved: 10 in the middle; 10 and 90 % points between two values: 8.4 and 11.6; 20 l of fuel are 5.28 gal
    said = drawn_sentence(2027, 12, _runs([42.0, 38.0], [30.0, 30.0], [20.0, 20.0]), None, "gal", 0.264172)  # fmt: skip
    assert "about 10 engine hours (8 to 12 in eight years of ten) and 5 gal of fuel" in said
    assert "20 moves instead of 4" in said
    assert "in such months" in said
    assert "the log does not say" in said


def test_a_small_difference_is_no_reproach() -> None:
    said = drawn_sentence(2027, 2, _runs([30.0], [29.0]), 31.0)
    assert "next to nothing" in said
    assert "31 hours" in said


def test_a_month_without_engine_has_nothing_to_save() -> None:
    assert "not needed" in drawn_sentence(2027, 7, _runs([0.0], [0.0]), 0.0)


def test_foresight_that_is_worse_is_never_told_as_saving() -> None:
    assert "saves about" not in drawn_sentence(2027, 3, _runs([10.0], [12.0]), 10.0)
