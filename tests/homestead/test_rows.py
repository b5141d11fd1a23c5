"""Who says so (conventions §15)."""

from __future__ import annotations

from datetime import date

import pytest

from polestead.base.problem import Wrong
from polestead.base.row import Row
from polestead.homestead.demos import demo_path
from polestead.homestead.read import check_text

TEXT = demo_path("hollow-spruce").read_text(encoding="utf-8")
HINGE = 'hinge_height = "11 ft"'


def row(text: str, section: str, key: str) -> Row:
    _, rows = check_text(text)
    (found,) = [row for row in rows if (row.section, row.key) == (section, key)]
    return found


@pytest.mark.parametrize(
    ("written", "feet", "standing"),
    [
        ('"11 ft"', 11.0, "planned"),
        (
            '{ planned = "11 ft", built = "11 ft 1/2 in", on = 2026-06-01 }',
            11.0 + 0.5 / 12.0,
            "built",
        ),
        ('{ assumed = "10 ft", why = "not drawn yet" }', 10.0, "assumed"),
        ('{ planned = "11 ft", said = "12 ft", asked_of = "the welder" }', 12.0, "said"),
        ('{ planned = "11 ft", assumed = "12 ft", why = "" }', 11.0, "planned"),
    ],
)
def test_measured_counts_before_said_before_planned_before_assumed(
    written: str, feet: float, standing: str
) -> None:
    text = TEXT.replace(HINGE, f"hinge_height = {written}")
    homestead, _ = check_text(text)
    assert homestead.mount.hinge_height_m == pytest.approx(feet * 0.3048)
    assert row(text, "mount", "hinge_height").standing == standing


def test_a_built_row_keeps_what_was_planned_and_when() -> None:
    text = TEXT.replace(
        HINGE, 'hinge_height = { planned = "11 ft", built = "11 ft 1/2 in", on = 2026-06-01 }'
    )
    found = row(text, "mount", "hinge_height")
    assert (found.planned, found.written, found.on, found.mark) == (
        "11 ft",
        "11 ft 1/2 in",
        date(2026, 6, 1),
        "",
    )


def test_an_answer_keeps_who_gave_it() -> None:
    found = row(TEXT, "place", "wind_speed")
    assert (found.asked_of, found.on, found.mark) == (
        "county building office",
        date(2026, 5, 4),
        "",
    )


def test_every_default_is_a_row_with_its_source_and_the_mark() -> None:
    _, rows = check_text(TEXT)
    defaults = [row for row in rows if row.standing == "default"]
    assert len(defaults) > 10
    assert all(row.source and row.why and row.mark == "~" for row in defaults)


def test_what_is_taken_for_a_value_left_out_is_a_row_in_words() -> None:
    found = row(TEXT, "household.engine", "full_load_fuel")
    assert (found.standing, found.value) == ("default", "a range by kind of fuel")


def test_facts_of_the_place_have_no_default() -> None:
    from polestead.homestead.fields import extra_of
    from polestead.homestead.model import Place

    facts = [info for info in Place.model_fields.values() if "ask" in extra_of(info)]
    assert len(facts) == 7
    assert all(info.is_required() for info in facts)


@pytest.mark.parametrize(
    ("written", "degrees"),
    [("91.4 W", -91.4), ("91.4° W", -91.4), ("91.4 deg e", 91.4), ("-91.4 deg", -91.4)],
)
def test_a_longitude_may_carry_its_letter(written: str, degrees: float) -> None:
    homestead, _ = check_text(TEXT.replace('longitude = "-91.4 deg"', f'longitude = "{written}"'))
    assert homestead.place.longitude_deg == degrees


def test_a_longitude_that_points_north_is_refused() -> None:
    with pytest.raises(Wrong, match="E or W is wanted"):
        check_text(TEXT.replace('longitude = "-91.4 deg"', 'longitude = "91.4 N"'))
