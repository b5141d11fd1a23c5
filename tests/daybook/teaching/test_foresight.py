from __future__ import annotations

from polestead.daybook.teaching.foresight import MonthRun, foresight_sentence


def test_what_was_saved_is_said_beside_the_log() -> None:
    said = foresight_sentence(2027, 12, MonthRun(40.0, 80.0, 4), MonthRun(30.0, 60.0, 20), None, "gal", 0.264172)  # fmt: skip
    # 20 l of fuel are 5.28 gal
    assert "about 10 engine hours and 5 gal of fuel" in said
    assert "20 moves instead of 4" in said
    assert "the log does not say" in said


def test_a_small_difference_is_no_reproach() -> None:
    said = foresight_sentence(2027, 2, MonthRun(30.0, None, 4), MonthRun(29.0, None, 20), 31.0)
    assert "next to nothing" in said
    assert "31 hours" in said


def test_a_month_without_engine_has_nothing_to_save() -> None:
    said = foresight_sentence(2027, 7, MonthRun(0.0, 0.0, 2), MonthRun(0.0, 0.0, 31), 0.0)
    assert "not needed" in said


def test_foresight_that_is_worse_is_never_told_as_saving() -> None:
    said = foresight_sentence(2027, 3, MonthRun(10.0, 20.0, 2), MonthRun(12.0, 24.0, 30), 10.0)
    assert "would have saved about" not in said
