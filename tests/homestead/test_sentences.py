"""Sentences of data."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.homestead.sentences import (
    CONDUCTORS,
    WINDOWS,
    conductor_words,
    pole_words,
    price_per_l,
    tube_sentence,
    use_words,
)


@pytest.mark.parametrize(
    ("sentence", "watts", "hours", "window", "season", "share"),
    [
        ("900 W, 20 min after breakfast", 900.0, 1 / 3, (7, 10), "all year", 1.0),
        ("60 W, all day", 60.0, 24.0, (0, 24), "all year", 1.0),
        ("1,100 W, 1 h from 9 to 16", 1100.0, 1.0, (9, 16), "all year", 1.0),
        ("1.2 kWh a day, from 6 to 22", 75.0, 16.0, (6, 22), "all year", 1.0),
        ("75 W, 8 h at night in winter", 75.0, 8.0, (22, 6), "winter", 1.0),
        ("500 W, 1 h a week at midday", 500.0, 1.0, (11, 14), "all year", 1 / 7),
        ("200 W, 1 h 30 min in the evening on weekdays", 200.0, 1.5, (17, 22), "all year", 5 / 7),
        ("500 W, 10 h a week at midday", 500.0, 10 / 7, (11, 14), "all year", 1.0),
        ("500 W, 5 h a week on weekdays, in the morning", 500.0, 1.0, (6, 11), "all year", 5 / 7),
        ("90 W, in the evening in winter on weekdays", 90.0, 5.0, (17, 22), "winter", 5 / 7),
        ("90 W, in winter, on weekdays, 5 h In The Evening", 90.0, 5.0, (17, 22), "winter", 5 / 7),
        ("1,100W, 20min from 6am to 9:30 pm", 1100.0, 1 / 3, (6, 21.5), "all year", 1.0),
        ("100 W, from 12 am to 12 pm", 100.0, 12.0, (0, 12), "all year", 1.0),
        ("100 W, from 24 to 6", 100.0, 6.0, (0, 6), "all year", 1.0),
        ("1.2 kWh a day, 2 h in the evening", 600.0, 2.0, (17, 22), "all year", 1.0),
        ("8.4 kWh a week, all day", 50.0, 24.0, (0, 24), "all year", 1.0),
        ("3 kWh a week, once a week at midday", 1000.0, 3.0, (11, 14), "all year", 1 / 7),
        ("0.3 hp, 1/2 h from 22:30 to 5 in summer", 223.7, 0.5, (22.5, 5), "summer", 1.0),
    ],
)
def test_a_use_is_read_as_it_is_said(
    sentence: str,
    watts: float,
    hours: float,
    window: tuple[float, float],
    season: str,
    share: float,
) -> None:
    use = use_words("it", sentence)
    assert use.power_w == pytest.approx(watts, abs=0.05)
    assert use.hours_per_day == pytest.approx(hours)
    assert (use.from_hour, use.to_hour) == window
    assert (use.season, use.share_of_days) == (season, pytest.approx(share))


@pytest.mark.parametrize(
    "sentence",
    ["", "900", "900 W", "900 W,", "W, all day", "900 V, all day", "-5 W, all day", "900 W, sometimes", "900 W, 30 h",
     "60 W all day", "1.2 kWh a day", "900 W, in winter", "900 W, from 6 to 22:75", "900 W, from 13 pm to 2 pm",
     "900 W, at night at midday", "900 W, 1 h 2 h", "900 W, 1 h a day 2 h a week", "900 W, 30 h a week at midday",
     "900 W, on weekdays at weekends at night", "900 W, twice a day", "1 kWh a day, 2 h a week at midday", "900 W, 5 h after breakfast", "900 W, from 6 to 6", "900 W, from 25 to 26", "99 kW, all day", "0 W, all day"],
)  # fmt: skip
def test_a_use_that_says_too_little_or_too_much_is_refused_in_words(sentence: str) -> None:
    with pytest.raises(ValueError, match=r"\w+ \w+ \w+"):
        use_words("it", sentence)


@given(st.sampled_from(sorted(WINDOWS)), st.floats(1.0, 5000.0))
def test_every_window_word_is_understood(words: str, watts: float) -> None:
    use = use_words("it", f"{watts:.3f} W, {words}")
    assert use.hours_per_day == pytest.approx((use.to_hour - use.from_hour) % 24 or 24)


@pytest.mark.parametrize(
    ("words", "nominal", "schedule", "material"),
    [
        ("8 in schedule 80 A53 B", "8", "80", "A53 B"),
        ("3-1/2 in sch 40 A53 grade B", "3.5", "40", "A53 B"),
        ("10 in schedule xs A500 C", "10", "XS", "A500 C"),
        ("6 in sch. 40 unknown steel", "6", "40", "unknown steel"),
    ],
)
def test_a_pipe_is_read_by_its_size(words: str, nominal: str, schedule: str, material: str) -> None:
    pole = pole_words(words)
    assert (pole.nominal, pole.schedule, pole.material) == (nominal, schedule, material)


def test_a_measured_pole_and_a_metric_tube_are_read_by_their_lengths() -> None:
    measured = pole_words("measured 8-5/8 in outside, 0.32 in wall, unknown steel")
    tube = pole_words("CHS 219.1 x 12.5 S355J2H")
    assert measured.outside_m == pytest.approx(0.219075)
    assert measured.wall_m == pytest.approx(0.008128)
    assert (tube.outside_m, tube.wall_m, tube.material) == (
        pytest.approx(0.2191),
        pytest.approx(0.0125),
        "S355",
    )


@pytest.mark.parametrize(
    "words",
    [
        "",
        "a pole",
        "8 in schedule 80",
        "8 in schedule 80 tin",
        "measured 8 in outside, 5 in wall, S355",
        "CHS 5x1 S235",
    ],
)
def test_a_pole_that_cannot_be_is_refused(words: str) -> None:
    with pytest.raises(ValueError, match=r"\w+"):
        pole_words(words)


@given(
    st.permutations(["2 h", "in the evening", "in winter", "on weekdays"]), st.sampled_from([" ", ", "])
)  # fmt: skip
def test_the_parts_of_a_use_may_stand_in_any_order(parts: list[str], joint: str) -> None:
    use, plain = (
        use_words("it", f"90 W, {joint.join(parts)}"),
        use_words("it", "90 W, 2 h in the evening on weekdays in winter"),
    )
    assert (use.power_w, use.hours_per_day, use.from_hour, use.season, use.share_of_days) == (
        plain.power_w, plain.hours_per_day, plain.from_hour, plain.season, plain.share_of_days,
    )  # fmt: skip


@given(
    st.floats(0.05, 30.0),
    st.sampled_from(["day", "week"]),
    st.sampled_from(["all day", "in the evening", "2 h at midday", "1 h 30 min by day"]),
    st.sampled_from(["", " on weekdays", " at weekends", " once a week", " in winter"]),
)
def test_energy_a_week_is_the_energy_that_was_said(
    kwh: float, span: str, when: str, days: str
) -> None:
    use = use_words("it", f"{kwh:.3f} kWh a {span}, {when}{days}")
    running_days = 7.0 * use.share_of_days
    times = 1.0 if span == "week" else running_days
    said = float(f"{kwh:.3f}") * 1000.0 * times
    assert use.power_w * use.hours_per_day * running_days == pytest.approx(said, rel=1e-9)


@given(st.text(max_size=40), st.text(alphabet="0123456789 ,.:/hminkWamptoe", max_size=40))
def test_no_words_whatever_do_worse_than_be_refused(words: str, figures: str) -> None:
    from contextlib import suppress

    for text in (words, figures, f"900 W, {words}", f"900 W, {figures}", f"{figures}, all day"):
        with suppress(ValueError):
            use = use_words("it", text)
            assert 0.0 < use.power_w <= 50_000.0
            assert 0.0 < use.hours_per_day <= 24.0
            assert 0.0 <= use.from_hour < 24.0 < use.to_hour + 24.0 <= 48.0
            assert 0.0 < use.share_of_days <= 1.0
        for read in (pole_words, tube_sentence, price_per_l, conductor_words):
            with suppress(ValueError):
                read(text)


def test_steel_without_its_grade_is_taken_as_soft() -> None:
    assert pole_words("8 in schedule 40 steel").material == "unknown steel"
    with pytest.raises(ValueError, match="of what"):
        pole_words("8 in schedule 40")
    assert pole_words("8 in schedule 40 A53 B steel").material == "A53 B"


@pytest.mark.parametrize(
    ("written", "size"),
    [("00 AWG", "2/0 AWG"), ("0 AWG", "1/0 AWG"), ("16 mm^2", "16 mm2"), ("16 sq mm", "16 mm2"), ("#4 AWG", "4 AWG")],
)  # fmt: skip
def test_a_conductor_is_brought_to_its_usual_writing(written: str, size: str) -> None:
    assert conductor_words(written) == size


def test_a_price_with_a_decimal_comma_is_told_to_take_a_point() -> None:
    with pytest.raises(ValueError, match="write a point"):
        price_per_l("1,45 per l")
    assert price_per_l("1,200.50 per m3") == pytest.approx(1.2005)
    assert price_per_l("2.60 per gallon") == price_per_l("2.60 per gal")


def test_fuel_prices_come_to_litres() -> None:
    assert price_per_l("3.785411784 per gal") == pytest.approx(1.0)
    assert price_per_l("$2.60/gal") == pytest.approx(2.60 / 3.785411784)
    assert price_per_l("1.18 EUR per l") == 1.18
    for wrong in ("2.60", "per gal", "2.60 per kg", ""):
        with pytest.raises(ValueError, match=r"\w+"):
            price_per_l(wrong)


@pytest.mark.parametrize("size", CONDUCTORS)
def test_every_standard_conductor_reads_as_itself(size: str) -> None:
    assert conductor_words(size.lower()) == size


@pytest.mark.parametrize(
    "size", ["", "5 AWG", "4", "#4", "4 gauge", "17 mm2", "00000 AWG", "16 AWG", "4 mm3"]
)
def test_other_conductors_are_refused(size: str) -> None:
    with pytest.raises(ValueError, match=r"standard conductor|must be|AWG or 4 mm2"):
        conductor_words(size)


@pytest.mark.parametrize(
    "words",
    [
        "",
        "6x6",
        "HSS 6x6x1/4",
        "HSS 6x6x1/0 A500 C",
        "HSS 6x6x3 A500 C",
        "HSS 6x6x1/4 oak",
        "SHS 6000x60x4 S355",
        "HSS 60x60x4 S355",
    ],
)
def test_a_tube_that_cannot_be_is_refused_in_words(words: str) -> None:
    with pytest.raises(ValueError, match=r"\w+ \w+"):
        tube_sentence(words)


def test_a_tube_is_brought_to_its_usual_writing() -> None:
    assert tube_sentence("hss 2.5 x 2.5 x 1/4 A500 grade C") == "HSS 2.5x2.5x1/4 A500 C"
