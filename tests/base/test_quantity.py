"""Quantities in the owner's own writing (conventions §2)."""

from __future__ import annotations

from contextlib import suppress
from math import isfinite

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
        ("-31 deg F", "temperature", -35.0),
        ("−31 ° F", "temperature", -35.0),
        ("-40 degrees C", "temperature", -40.0),
        ("25º", "angle", 25.0),
        ("6ft8in", "length", 2.032),
        ("6ft2in", "length", 1.8796),
        ("12 ft. 6 in.", "length", 3.81),
        ("12 ft.", "length", 3.6576),
        ("12 ft.5 in", "length", 3.6703),
        ("-6 ft 3 in", "length", -1.905),
        ("+3 m", "length", 3.0),
        ("5′ – 3″", "length", 1.6002),
        ("  12\n ft ", "length", 3.6576),
        ("2 gallons", "volume", 7.570824),
        ("1 gallon", "volume", 3.785412),
        ("170 kph", "speed", 47.222222),
        ("120 lb", "mass", 54.431084),
        ("1 m 20 cm", "length", 1.2),
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
        ("10 C 5 F", "temperature", "two temperatures"),
        ("1/0 in", "length", "divides by zero"),
        ("12 ft ft", "length", "cannot be read"),
        ("nan m", "length", "cannot be read"),
        ("inf m", "length", "cannot be read"),
        ("1e3 m", "length", "write the number out"),
        ("5 ft - 3 ft", "length", "out of order"),
        ("+-3 m", "length", "cannot be read"),
        ("--3 m", "length", "cannot be read"),
        ("5'6", "length", "last number of 5'6 has no unit"),
        ("6-8 ft", "length", "cannot be read"),
        ("12.5.3 ft", "length", "cannot be read"),
        ("1979-05-27", "length", "cannot be read"),
        ("11 m 3 in", "length", "mixes m and in"),
        ("5 kWh", "power", "is an energy, a power is wanted"),
        ("40 deg", "temperature", "is an angle, a temperature is wanted"),
        ("0.55", "share", "0.55 % or 55 %"),
        ("55", "share", "did you mean 55 %"),
        ("-0.5", "share", "-0.5 % or -50 %"),
        ("48", "voltage", "did you mean 48 V"),
        ("9" * 400 + "/1 in", "length", "too long"),
        ("1" * 5000 + " 1/2 in", "length", "too long"),
    ],
)
def test_it_refuses_the_rest_and_says_why(text: str, dimension: str, word: str) -> None:
    with pytest.raises(NotAQuantity, match=word):
        read_quantity(text, dimension)


def test_no_number_that_may_be_written_is_too_large_for_the_machine() -> None:
    for digits in ("9" * 55, "9" * 50 + "/9", "1-" + "9" * 50 + "/1", ",".join(["999"] * 12)):
        assert 0.0 < read_quantity(f"{digits} in", "length") < 1e60


@given(
    st.text(alphabet="0123456789 .,-+/'\"°%ftinCFkmhWVAsdeg½٣", max_size=30),
    st.sampled_from(sorted(SI_UNIT)),
)
def test_no_heap_of_digits_and_units_does_worse_than_be_refused(text: str, dimension: str) -> None:
    with suppress(NotAQuantity):
        assert isfinite(read_quantity(text, dimension))


FRACTIONS = st.sampled_from([(0, 1), *((n, d) for d in (2, 4, 8, 16) for n in range(1, d, 2))])
STYLES = (
    ("{f} ft", "{i} in", " "),
    ("{f}'", '{i}"', " "),
    ("{f}'", '{i}"', "-"),
    ("{f}′", "{i}″", ""),
    ("{f} feet", "{i} inches", "  "),
    ("{f}ft", "{i}in", ""),
    ("{f} ft.", "{i} in.", " "),
)


@given(
    st.integers(0, 40), st.integers(0, 11), FRACTIONS, st.sampled_from(STYLES),
    st.sampled_from([" ", "-"]), st.sampled_from(["", "-", "−"]),
)  # fmt: skip
def test_however_he_writes_feet_inches_and_a_fraction_it_is_the_same_length(
    feet: int,
    inches: int,
    part: tuple[int, int],
    style: tuple[str, str, str],
    joint: str,
    sign: str,
) -> None:
    above, below = part
    small = (
        f"{inches}{joint}{above}/{below}"
        if above and inches
        else f"{above}/{below}"
        if above
        else f"{inches}"
    )
    large = style[0].format(f=feet) + style[2] if feet else ""
    written = sign + large + style[1].format(i=small)
    exact = (feet * 12 + inches + above / below) * 0.0254 * (-1 if sign else 1)
    assert read_quantity(written, "length") == pytest.approx(exact, abs=1e-12)
    assert read_quantity(feet_inches(exact), "length") == pytest.approx(exact, abs=1e-12)


@given(st.integers(0, 10**9), st.sampled_from(["ft", "m", "psf"]))
def test_thousands_may_be_grouped(value: int, unit: str) -> None:
    dimension = units()[unit].dimension
    assert read_quantity(f"{value:,} {unit}", dimension) == read_quantity(
        f"{value} {unit}", dimension
    )


@given(
    st.floats(0.01, 5e5), st.sampled_from(["length", "mass", "force", "pressure", "speed", "volume"]),
    st.sampled_from(["feet", "metric"]),
)  # fmt: skip
def test_what_is_shown_is_read_as_what_it_was(value: float, dimension: str, style: str) -> None:
    shown = in_style(value, SI_UNIT[dimension], style)  # type: ignore[arg-type]
    # four figures, or so many places of the trade's unit: half a step of either
    step = {
        "ft": 0.0031,
        "in": 2.6e-5,
        "lb": 0.46,
        "lbf": 4.5,
        "psf": 0.48,
        "mph": 0.045,
        "gal": 0.38,
        "ksi": 7e4,
    }
    slack = step.get(shown.split()[-1], 0.0) / 2.0
    assert read_quantity(shown, dimension) == pytest.approx(value, rel=5.1e-4, abs=slack + 1e-9)


@given(st.integers(-60_000, 60_000).map(lambda n: n / 1000), st.sampled_from(["feet", "metric"]))
def test_a_temperature_shown_is_read_as_what_it_was(celsius: float, style: str) -> None:
    shown = in_style(celsius, "C", style)  # type: ignore[arg-type]
    slack = 0.5 / 1.8 if style == "feet" else abs(celsius) * 5.1e-4
    assert read_quantity(shown, "temperature") == pytest.approx(celsius, abs=slack + 1e-9)


@given(st.floats(-30.0, 30.0), st.sampled_from(["feet", "metric"]))
def test_a_length_for_prose_is_read_as_what_it_was(metres: float, style: str) -> None:
    shown = length(metres, style)  # type: ignore[arg-type]
    slack = 0.0254 / 32 if style == "feet" else 0.0005 if abs(metres) < 1.0 else 0.005
    assert read_quantity(shown, "length") == pytest.approx(metres, abs=slack + 1e-9)


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


@given(st.floats(-1e300, 1e300))
def test_a_number_to_four_figures_is_short_and_right(value: float) -> None:
    shown = significant(value)
    assert len(shown) <= 20
    read = float(shown.replace("−", "-").replace(",", ""))
    assert read == pytest.approx(value, rel=5.1e-4, abs=0.0)


def test_numbers_are_shown_with_a_true_minus_and_no_minus_nothing() -> None:
    assert number(-1234.5, 0) == "−1,234"
    assert number(-0.001, 1) == "0.0"
    assert significant(-0.00012345) == "−0.0001234" or significant(-0.00012345) == "−0.0001235"
    assert length(0.5, "metric") == "500 mm"
    assert in_style(2.0, "", "feet") == "2"
