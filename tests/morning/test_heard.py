"""The forecast as heard: forgiving in words, strict in figures, nothing guessed."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.morning.forecast.by_eye import ladder, read_blows
from polestead.morning.forecast.words import read_heard

DAY = date(2026, 11, 25)  # a Wednesday
MPH, KT = 0.44704, 1852.0 / 3600.0


def spans(text, feet=True):
    found = read_heard(text, DAY, feet)
    assert found.not_understood == ()
    return found.spans


def only(text, feet=True):
    (span,) = spans(text, feet)
    return span


def test_a_whole_morning_as_heard() -> None:
    found = read_heard("clear, 20 to 30, gusts 45 kt, low -12 F, 4 in snow tonight", DAY)
    sky, heat, gust, low, snow = found.spans
    assert sky.sky == "clear"
    assert (heat.low_c, heat.high_c) == pytest.approx(((20 - 32) / 1.8, (30 - 32) / 1.8))
    assert gust.gust_m_s == pytest.approx(45 * KT)
    assert low.low_c == pytest.approx((-12 - 32) / 1.8)
    assert snow.snow_m == pytest.approx(4 * 0.0254)
    assert (snow.from_h, snow.to_h) == (18.0, 31.0)
    assert found.echo == "Today: clear, 20 to 30 F, gusts 45 kt, low −12 F. Tonight: snow 4 in."


@pytest.mark.parametrize(
    ("text", "gust"),
    [
        ("gusts 45 to 60 mph", 60 * MPH), ("gusts up to 45 kt", 45 * KT), ("gusting to 90 km/h", 25.0), ("gusts 15 m/s", 15.0),
        ("60 mph gusts", 60 * MPH), ("wind nw 15 mph gusting to 40 mph", 40 * MPH), ("wind 10 to 20 mph", 30 * MPH), ("winds 20 knots", 30 * KT),
        ("20 kph", 1.5 * 20 / 3.6), ("gusts 40 mph from the west", 40 * MPH),
    ],
)  # fmt: skip
def test_winds(text, gust) -> None:
    """Of a range the upper end; a mean wind is taken times 1.5."""
    assert only(text).gust_m_s == pytest.approx(gust)


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("gusts 40 mph tonight", (18, 31)), ("gusts 40 mph by dark", (6, 18)), ("gusts 40 mph from 3 pm", (15, 31)),
        ("gusts 40 mph from 15:00 to 18:00", (15, 18)), ("gusts 40 mph from 10 pm to 4 am", (22, 28)), ("gusts 40 mph by 10 am", (0, 10)),
        ("gusts 40 mph from 10 to 2 pm", (10, 14)), ("gusts 40 mph from 3 to 5 pm", (15, 17)), ("gusts 40 mph from 11 to 2 am", (23, 26)), ("gusts 40 mph from 9:30 to 12 pm", (9.5, 12)),
        ("gusts 40 mph", (0, 31)), ("tomorrow gusts 40 mph", (24, 55)), ("gusts 40 mph tomorrow night", (42, 55)), ("friday: gusts 40 mph", (48, 79)),
        ("gusts 40 mph this afternoon", (12, 18)), ("gusts 40 mph from 12 am", (0, 31)),
    ],
)  # fmt: skip
def test_hours(text, hours) -> None:
    span = only(text)
    assert (span.from_h, span.to_h) == hours


def test_days_by_semicolon() -> None:
    found = spans("clear, gusts 10 mph; grey, gusts 30 mph; broken")
    assert [span.from_h for span in found] == [0.0, 0.0, 24.0, 24.0, 48.0]


@pytest.mark.parametrize("mark", [",", ";", ". ", ", and "])
@pytest.mark.parametrize(("words", "hours"), [("tonight", (18, 31)), ("this evening", (18, 24)), ("today", (0, 31)), ("tomorrow", (24, 55)), ("tomorrow night", (42, 55))])  # fmt: skip
def test_a_word_of_the_day_holds_whatever_parts_it(mark, words, hours) -> None:
    (gust,) = (one for one in spans(f"grey, high 30 F{mark}{words} gusts 70 mph") if one.gust_m_s)
    assert (gust.from_h, gust.to_h) == hours


@pytest.mark.parametrize(
    ("words", "hours"),
    [("until 2 am", (0, 26)), ("from 2 am to 5 am", (26, 29)), ("until 6 pm", (0, 18)), ("from 6 am to 8 am", (6, 8)), ("by 7:10", (0, 31 + 1 / 6)), ("from 3:30 to 5:30", (15.5, 29.5)), ("until 5:30", (0, 29.5))],
)  # fmt: skip
def test_hours_gone_by_are_those_to_come(words, hours) -> None:
    """Heard at 7:10; an hour that has ended is the next day's, and then the wind is not certain."""
    found = read_heard(f"gusts 70 mph {words}", DAY, True, 7.0 + 1.0 / 6.0)
    (span,) = found.spans
    assert (span.from_h, span.to_h) == pytest.approx(hours)
    assert found.gust_doubted == (hours[1] > 24)


def test_a_night_begun_before_midnight_still_lasts_after_it() -> None:
    (span,) = read_heard("gusts 70 mph tonight", DAY, True, 1.0).spans
    assert (span.from_h, span.to_h) == (0.0, 31.0)


def test_a_bare_range_takes_the_owners_own_degrees() -> None:
    assert only("20 to 30", feet=False).high_c == pytest.approx(30.0)
    assert only("-5 to -20 C").low_c == pytest.approx(-20.0)


def test_a_clock_of_twenty_four_names_the_half_of_the_day() -> None:
    (span,) = read_heard("gusts 30 m/s from 3:30 to 5:30", DAY, feet=False, now_h=7.0).spans
    assert (span.from_h, span.to_h) == (27.5, 29.5)


@pytest.mark.parametrize("text", ["freezing rain", "sleet", "freezing drizzle", "ice"])
def test_rain_that_freezes_is_ice(text) -> None:
    assert only(text).ice
    assert not only("rain").ice


def test_hail_comes_with_thunder() -> None:
    span = only("hail")
    assert span.hail
    assert span.thunder


@pytest.mark.parametrize(
    "text",
    [
        "gusts 45", "gusts -20 mph", "gusts 400 mph", "low 900 F", "low 10", "snow", "snow 4", "99 in snow falling", "purple", "gusts 45 mph or 20 kt",
        "45", "wind", "gusts 40 mph at 4", "gusts 10 kt to 20 mph", "not clear", "no snow", "hardly any gusts 20 mph", "400 cm snow",
    ],
)  # fmt: skip
def test_what_is_not_understood_is_told_and_nothing_is_made_of_it(text) -> None:
    found = read_heard(text, DAY)
    assert found.spans == ()
    assert found.not_understood


def test_a_part_not_understood_leaves_the_others() -> None:
    found = read_heard("clear, gusts 45, low -12 F", DAY)
    assert len(found.spans) == 2
    assert found.not_understood == ("gusts 45 (a wind needs its unit: mph, kt, km/h or m/s)",)
    assert not found.tells_gust


@settings(max_examples=300, deadline=None)
@given(st.text(alphabet=st.sampled_from("clear gustsnowmphk0123456789,;.-/ to:"), max_size=60) | st.text(max_size=40))  # fmt: skip
def test_any_text_is_read_or_told_and_no_figure_is_beyond_weather(text) -> None:
    for span in read_heard(text, DAY).spans:
        assert span.gust_m_s is None or 0.0 <= span.gust_m_s <= 150.0
        assert span.snow_m is None or 0.0 <= span.snow_m <= 3.0
        assert all(heat is None or -65.0 <= heat <= 55.0 for heat in (span.low_c, span.high_c))
        assert span.to_h > span.from_h


@given(number=st.integers(1, 99), unit=st.sampled_from(["mph", "kt", "km/h", "m/s"]))
def test_a_gust_is_the_number_in_its_unit(number, unit) -> None:
    factor = {"mph": MPH, "kt": KT, "km/h": 1 / 3.6, "m/s": 1.0}[unit]
    assert only(f"gusts {number} {unit}").gust_m_s == pytest.approx(number * factor)


def test_the_ladder_by_eye_is_the_published_scale() -> None:
    """WMO, Beaufort: v = .836 B^1.5 m/s in the middle of each step; the upper end lies between it and the next."""
    steps = ladder()
    assert [step.force for step in steps] == list(range(12))
    for step in steps:
        assert 0.836 * step.force**1.5 <= step.mean_m_s + 1e-9
        assert step.mean_m_s <= 0.836 * (step.force + 1) ** 1.5 + 1e-9


def test_wind_by_eye_is_turned_into_a_gust() -> None:
    """Small branches: force 4, mean to 7.9 m/s, times 1.5; among woods times 1.9."""
    assert read_blows("small branches", "C")[0] == pytest.approx(11.85)
    assert read_blows("Small branches move", "B")[0] == pytest.approx(15.01)
    assert read_blows("force 7", "C")[0] == pytest.approx(25.65)


def test_a_low_wind_gauge_reads_low() -> None:
    assert read_blows("20 mph", "C", 0.8)[0] == pytest.approx(25 * MPH)


@pytest.mark.parametrize("text", ["30", "a bit", "", "-5 mph", "900 mph"])
def test_wind_by_eye_that_says_nothing_is_refused(text) -> None:
    with pytest.raises(Wrong):
        read_blows(text, "C")


def test_tomorrow_said_past_midnight_is_of_the_day_now_beginning_too() -> None:
    said = "tomorrow clear, gusts 70 mph in the afternoon"
    late, early = (read_heard(said, date(2026, 11, 25), now_h=now) for now in (0.5, 6.5))
    gusts = [(span.from_h, span.to_h) for span in late.spans if span.gust_m_s is not None]
    assert sorted(gusts) == [(12.0, 18.0), (36.0, 42.0)]
    assert "and of the day now beginning" in late.echo
    assert [span.from_h for span in early.spans if span.gust_m_s is not None] == [36.0]
    assert [span.from_h // 24 for span in late.spans if span.sky is not None] == [
        1.0
    ]  # its sun is not
