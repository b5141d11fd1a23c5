"""Source, Check, Row, Problem, table: the grammar every room speaks."""

from __future__ import annotations

from math import inf, nan

import pytest

from polestead.base.check import Check, share
from polestead.base.problem import Problem, Wrong
from polestead.base.row import Row
from polestead.base.source import COMMON_PRACTICE, Source
from polestead.base.table import table
from polestead.base.working import Step, Working

WORKING = Working(
    "w",
    (Step("a", "a", "", 1.0, "N", COMMON_PRACTICE), Step("b", "b", "2", 2.0, "N", COMMON_PRACTICE)),
)


def check(use: float) -> Check:
    return Check("pole", "bending", 1.0, 1.0, "N m", use, COMMON_PRACTICE, WORKING)


@pytest.mark.parametrize(
    ("use", "holds"), [(0.0, True), (1.0, True), (1.0000001, False), (inf, False), (nan, False)]
)
def test_a_check_holds_up_to_its_limit_and_never_on_a_use_that_is_no_number(
    use: float, holds: bool
) -> None:
    assert check(use).holds is holds


def test_the_last_step_is_the_result() -> None:
    assert WORKING.result.value == 2.0


def test_nothing_asked_of_nothing_is_no_use() -> None:
    assert share(0.0, 0.0) == 0.0
    assert share(1.0, 0.0) == inf
    assert share(1.0, -2.0) == inf


@pytest.mark.parametrize(
    ("standing", "mark"),
    [("planned", ""), ("built", ""), ("said", ""), ("assumed", "~"), ("default", "~")],
)
def test_only_what_nobody_settled_carries_the_mark(standing: str, mark: str) -> None:
    assert Row("place", "wind_speed", "107 mph", 47.8, "m/s", standing).mark == mark  # type: ignore[arg-type]


def test_memory_is_said_where_the_source_is_printed() -> None:
    assert "memory" in str(Source("AISC 360-16", "H3-6", "memory"))
    assert str(Source("AISC 360-16", "H3-6")) == "AISC 360-16, H3-6"


def test_all_problems_are_told_together() -> None:
    told = str(
        Wrong(
            [
                Problem("mount", "hinge_height", "12", "a length", "Write 12 ft."),
                Problem("", "", "a", "b", "c"),
            ]
        )
    )
    assert "[mount] hinge_height: given 12; allowed: a length. Write 12 ft." in told
    assert "the file: given a" in told


def test_a_table_without_its_source_is_refused(
    tmp_path: object, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Bare:
        def joinpath(self, _: str) -> Bare:
            return self

        def read_text(self, encoding: str) -> str:
            return "size,source\n4,\n"

    monkeypatch.setattr("polestead.base.table.files", lambda _: Bare())
    with pytest.raises(ValueError, match="needs a source"):
        table("nowhere", "nothing")
