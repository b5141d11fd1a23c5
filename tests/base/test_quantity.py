"""Quantities in the owner's own writing (conventions §2)."""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.base.quantity import SI_UNIT, NotAQuantity, in_unit, read_quantity, unit_names, units
from polestead.base.show import feet_inches, gust_step, in_style, length, number, significant


@pytest.mark.parametrize(
    ("text", "dimension", "si"),
    [
        ("12 ft 6 in", "length", 3.81),
        ("6' 8\"", "length", 2.032),
        ("6′ 8″", "length", 2.032),
        ("12'-6 1/2\"", "length", 3.8227),
        ("12-1/2 in", "length", 0.3175),
        ("12 1/2 in", "length", 0.3175),
        ("5/8 in", "length", 0.015875),
        ("85 m", "length", 85.0),
        ("1,650 ft", "length", 502.92),
        (".5 m", "length", 0.5),
        ("-91.4 deg", "angle", -91.4),
        ("−91.4°", "angle", -91.4),
        ("30 psf", "pressure", 1436.408),
        ("48 V", "voltage", 48.0),
        ("-31 F", "temperature", -35.0),
        ("-40 °C", "temperature", -40.0),
        ("0 C", "temperature", 0.0),
        ("45 kt", "speed", 23.15),
        ("1 h 30 min", "time", 5400.0),
        ("500 gal", "volume", 1892.706),
        ("85 %", "share", 0.85),
        ("-0.25 %/C", "share per degree", -0.0025),
        ("200 psf/ft", "pressure per depth", 31417.49),
    ],
)
def test_it_reads_what_owners_write(text: str, dimension: str, si: float) -> None:
    assert read_quantity(text, dimension) == pytest.approx(si, rel=1e-6)


@pytest.mark.parametrize(
    ("text", "dimension", "word"),
    [
        ("12", "length", "12 ft or 12 in"),
        ("", "length", "empty"),
        ("ft", "length", "cannot be read"),
        ("12 lb", "length", "is a mass"),
        ("12 mhp", "speed", "no unit known"),
        ("12 FT", "length", "did you mean ft"),
        ("3,5 m", "length", "point for decimals"),
        ("6 in 2 ft", "length", "out of order"),
        ("10 C 5 F", "temperature", "out of order"),
        ("1/0 in", "length", "divides by zero"),
        ("12 ft ft", "length", "cannot be read"),
        ("nan m", "length", "cannot be read"),
        ("inf m", "length", "cannot be read"),
        ("1e3 m", "length", "no unit known"),
        ("5 ft - 3 ft", "length", "out of order"),
    ],
)
def test_it_refuses_the_rest_and_says_why(text: str, dimension: str, word: str) -> None:
    with pytest.raises(NotAQuantity, match=word):
        read_quantity(text, dimension)


@given(st.text(max_size=30), st.sampled_from(sorted(SI_UNIT)))
def test_no_text_whatever_does_worse_than_be_refused(text: str, dimension: str) -> None:
    with suppress(NotAQuantity):
        assert isinstance(read_quantity(text, dimension), float)


@given(st.floats(-1e5, 1e5), st.sampled_from(sorted(units())))
def test_written_in_a_unit_and_read_back_it_is_the_same(value: float, name: str) -> None:
    unit = units()[name]
    written = f"{value:.6f} {name}"
    read = read_quantity(written, unit.dimension)
    assert in_unit(read, name) == pytest.approx(float(f"{value:.6f}"), rel=1e-9, abs=1e-9)


@given(st.integers(-20_000, 20_000))
def test_feet_and_inches_are_shown_to_the_sixteenth_and_read_back(sixteenths: int) -> None:
    metres = sixteenths * 0.0254 / 16
    assert read_quantity(feet_inches(metres), "length") == pytest.approx(metres, abs=1e-9)


@pytest.mark.parametrize(
    ("metres", "text"),
    [
        (0.0254 * 11.999, "12 in"),
        (0.0254 * 23.99, "2 ft"),
        (0.0254 * 0.02, "0 in"),
        (-0.0254 * 0.02, "0 in"),
        (3.8227, "12 ft 6 1/2 in"),
    ],
)
def test_a_sixteenth_short_of_a_foot_is_carried_over(metres: float, text: str) -> None:
    assert feet_inches(metres) == text


@given(st.floats(0.0, 120.0), st.sampled_from(["feet", "metric"]))
def test_a_gust_is_only_ever_rounded_down(speed: float, style: str) -> None:
    shown = gust_step(speed, style)  # type: ignore[arg-type]
    exact = speed / 0.44704 if style == "feet" else speed
    step = 5.0 if style == "feet" else 2.0
    assert shown <= exact + 1e-6
    assert exact - shown < step
    assert shown % step == 0.0


def test_every_dimension_has_a_unit_of_factor_one() -> None:
    for dimension in SI_UNIT:
        assert any(
            units()[name].factor in (1.0, 0.01) and units()[name].offset == 0.0
            for name in unit_names(dimension)
        )


def test_numbers_are_shown_with_a_true_minus_and_no_minus_nothing() -> None:
    assert number(-1234.5, 0) == "−1,234"
    assert number(-0.001, 1) == "0.0"
    assert significant(-0.00012345) == "−0.0001234" or significant(-0.00012345) == "−0.0001235"
    assert length(0.5, "metric") == "500 mm"
    assert in_style(2.0, "", "feet") == "2"
