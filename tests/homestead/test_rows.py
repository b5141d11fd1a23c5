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


def test_a_use_and_a_price_may_be_assumed_too() -> None:
    text = TEXT.replace(
        'washing = "500 W, 1.5 h at midday"',
        'washing = { assumed = "500 W, 1.5 h at midday", why = "not metered yet" }',
    ).replace(
        "modules = 1180.0",
        'modules = { said = 1150, asked_of = "the yard", on = 2026-05-04 }',
    )
    homestead, plain_rows = check_text(TEXT)
    changed, rows = check_text(text)
    assert changed.household.use_list == homestead.household.use_list
    assert changed.prices.lines["modules"] == 1150.0
    assert row(text, "household.uses", "washing").mark == "~"
    assert row(text, "prices.lines", "modules").asked_of == "the yard"
    assert len(rows) == len(plain_rows)


def test_a_list_may_be_assumed_too() -> None:
    text = TEXT.replace(
        "snow_on_ground = [11, 12, 1, 2, 3, 4]",
        'snow_on_ground = { assumed = [12, 1, 2], why = "first winter here" }',
    )
    homestead, _ = check_text(text)
    assert homestead.climate.snow_on_ground == (12, 1, 2)
    assert row(text, "climate", "snow_on_ground").written == "[12, 1, 2]"


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
