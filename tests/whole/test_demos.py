"""Whole demos, as reviewed snapshots and as promises."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from polestead.answer.answer import answer_of
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import OwnersFile, check_text, read_homestead
from polestead.sheets.text import answer_text
from polestead.sheets.workings import of_stand, printed
from tests.answers import worked

NAMES = demo_names()


@pytest.mark.parametrize("name", NAMES)
def test_the_answer_reads_as_reviewed(
    name: str, same_as_reviewed: Callable[[str, str], None]
) -> None:
    answer = worked(name)
    same_as_reviewed(f"{name}.txt", answer_text(answer, answer.units) + "\n")


@pytest.mark.parametrize("name", NAMES)
def test_the_working_of_the_pole_reads_as_reviewed(
    name: str, same_as_reviewed: Callable[[str, str], None]
) -> None:
    answer = worked(name)
    same_as_reviewed(
        f"{name}-pole.txt",
        printed(of_stand(answer.stand), "pole at the collar", answer.units) + "\n",
    )


@pytest.mark.parametrize("name", NAMES)
def test_the_demos_truly_stand_and_are_consistent(name: str) -> None:
    answer = worked(name)
    assert answer.stand.verdict == "stands"
    assert [check.part for check in answer.stand.checks if not check.holds] == []
    assert [check.part for check in answer.stand.geometry_checks if not check.holds] == []
    assert [check.part for check in answer.wiring.checks if not check.holds] == []
    assert answer.place.doubts == ()


@pytest.mark.parametrize("name", NAMES)
def test_the_new_array_saves_engine_hours_and_the_points_are_in_order(name: str) -> None:
    winter = worked(name).winter
    for summary in (winter.without, winter.with_new):
        for spread in (summary.engine_hours, summary.fuel_least_l, summary.fuel_most_l):
            assert spread.good <= spread.median <= spread.bad
            assert spread.bad_low <= spread.bad_high
    assert winter.with_new.engine_hours.bad < winter.without.engine_hours.good
    assert winter.saved_hours.bad <= winter.saved_hours.median <= winter.saved_hours.good


@pytest.mark.parametrize("name", NAMES)
def test_every_check_and_headline_prints_a_working_with_sources(name: str) -> None:
    answer = worked(name)
    workings = [
        check.working
        for check in (*answer.stand.checks, *answer.stand.geometry_checks, *answer.wiring.checks)
    ]
    workings += [
        answer.winter.without.working,
        answer.winter.with_new.working,
        answer.money.working,
    ]
    workings += [answer.build.concrete.working, answer.wiring.drop_working]
    for working in workings:
        assert working.steps, working.title
        for step in working.steps:
            assert step.word
            assert str(step.source)
            assert np.isfinite(step.value) or step.value > 0.0


def test_the_same_seed_gives_the_same_answer_and_another_seed_another() -> None:
    owners = read_homestead(demo_path("cinder-mesa"))
    one, two, other = (answer_of(owners, 20, seed) for seed in (1, 1, 2))
    assert answer_text(one, "feet") == answer_text(two, "feet")
    assert one.winter.with_new.engine_hours != other.winter.with_new.engine_hours


def changed(**changes: str) -> OwnersFile:
    """The first demo with some lines changed."""
    text = demo_path("hollow-spruce").read_text(encoding="utf-8")
    for old, new in changes.values():  # type: ignore[misc]
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    homestead, rows = check_text(text)
    return OwnersFile(demo_path("hollow-spruce"), homestead, rows, "00000000")


def test_a_thinner_pole_gives_and_says_so() -> None:
    answer = answer_of(changed(pole=("8 in schedule 80", "6 in schedule 40")), 10)  # type: ignore[arg-type]
    assert answer.stand.verdict != "stands"
    assert any(
        check.part == "pole at the collar" and not check.holds for check in answer.stand.checks
    )


@pytest.mark.parametrize(
    ("latitude", "longitude", "elevation", "low"),
    [("64.8", "-147.7", "450 ft", "-66 F"), ("-35.1", "149.2", "620 m", "-10 C")],
)
def test_far_places_are_answered(latitude: str, longitude: str, elevation: str, low: str) -> None:
    text = demo_path("hollow-spruce").read_text(encoding="utf-8")
    for old, new in (
        ('latitude = "47.9 deg"', f'latitude = "{latitude} deg"'),
        ('longitude = "-91.4 deg"', f'longitude = "{longitude} deg"'),
        ('elevation = "1,650 ft"', f'elevation = "{elevation}"'),
        ("clock_offset_hours = -6.0", f"clock_offset_hours = {round(float(longitude) / 15)}.0"),
        ('said = "-47 F"', f'said = "{low}"'),
        ('facing = "180 deg"', f'facing = "{"180" if float(latitude) > 0 else "0"} deg"'),
    ):
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    homestead, rows = check_text(text)
    answer = answer_of(OwnersFile(demo_path("hollow-spruce"), homestead, rows, "00000000"), 20)
    assert answer.place.doubts == ()
    by_month = answer.winter.without.engine_hours_by_month
    lean = int(np.argmax(by_month))
    assert lean in ((10, 11, 0, 1) if float(latitude) > 0 else (4, 5, 6, 7))
    assert answer.winter.with_new.engine_hours.median <= answer.winter.without.engine_hours.median
