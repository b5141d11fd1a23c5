"""The morning decided, on two demos: the line, the stop state, what is told and what is not."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.quantity import in_unit
from polestead.morning.decide import morning_of
from polestead.morning.forecast.forecast import Forecast, Span, nothing_heard
from polestead.morning.forecast.words import read_heard
from polestead.morning.seen import GLASS, Away, Reading, Seen, Taught
from tests.morning.given import AT, MPH

SEEN = Seen(AT, lies=Reading(65.0), charge=Reading(0.78), glass="bare")
SUMMER = datetime(2026, 7, 1, 7, 0)


def line(basis, text="", **changes):
    seen = replace(SEEN, **changes)
    forecast = read_heard(text, seen.at.date(), basis.facts.units == "feet") if text else nothing_heard(seen.at.date())  # fmt: skip
    return morning_of(basis, seen, forecast)


def words(found) -> str:
    return " ".join(one.text for one in found.sentences)


def test_a_quiet_clear_day_in_november_goes_steep(spruce) -> None:
    found = line(spruce, "clear, gusts 15 mph; gusts 15 mph", lies=Reading(25.0))
    assert found.move is not None
    assert found.move.to_deg >= 60.0
    assert "move only under" in words(found)
    assert "No engine." in words(found)
    assert [one.sureness for one in found.sentences if one.text == "No engine."] == ["sure"]


def test_it_is_left_where_it_is_wanted(spruce) -> None:
    found = line(spruce, "clear, gusts 15 mph")
    assert (found.move, found.stays_deg) == (None, 65.0)
    assert words(found).startswith("Leave it at 65.")


def test_a_quiet_day_before_a_windy_night_ends_flat_and_locked(spruce) -> None:
    found = line(spruce, "clear, gusts 15 mph by dark, gusts 60 mph after dark")
    assert found.stays_deg == 65.0
    assert found.tonight is not None
    assert found.tonight.tilt_deg < 15.0
    assert found.tonight.by_h is not None
    assert "Flat and locked by 4 pm: gust 60 to 96 mph tonight." in words(found)
    assert found.good_until == datetime(2026, 11, 25, 16, 0)


def test_without_a_forecast_it_says_so_and_only_guesses(spruce) -> None:
    found = line(spruce)
    assert found.sentences[0].sureness == "guess"
    assert found.sentences[0].text.startswith("No forecast. I take the gust that")
    assert {one.sureness for one in found.sentences if one.text.startswith(("Leave", "Set", "Stays", "Sundown"))} == {"guess"}  # fmt: skip


def test_with_a_sky_but_no_gust_it_says_so(spruce) -> None:
    assert words(line(spruce, "clear")).startswith("No gust told. I take the gust that")


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"glass": "iced"}, "ice"), ({"glass": "buried"}, "buried"), ({"glass": "covered"}, "Snow covers it"),
        ({"glass": "covered", "snow_m": 0.3}, "Too much snow"), ({"blows_m_s": 40 * MPH}, "It blows 40 mph; move only under 30 mph."),
    ],
)  # fmt: skip
def test_the_stop_state_tells_the_reason_and_neither_seconds_nor_mark(
    spruce, changes, reason
) -> None:
    proved = replace(spruce, card=replace(spruce.card, proved=True))
    found = line(proved, "clear, gusts 20 mph", lies=Reading(25.0), **changes)
    assert found.stop
    assert found.move is None
    assert found.tonight is None
    assert found.sentences[0].text == "Do not move it."
    assert reason in words(found)
    said = " ".join([words(found), found.if_wrong, *(one.text for one in found.why), *found.notes])
    assert not re.search(r"\d s\b|\bmark\b|\bkey\b|rod at", said)


def test_where_it_may_not_stand_people_are_kept_away(spruce) -> None:
    assert "keep away" in words(line(spruce, "gusts 60 mph", blows_m_s=40 * MPH))
    fine = line(spruce, "gusts 15 mph", blows_m_s=40 * MPH, lies=Reading(25.0))
    assert "Where it lies it stands to" in words(fine)


def test_no_tilt_is_named_where_none_stands(spruce) -> None:
    found = line(spruce, "gusts 120 mph")
    assert found.stop
    assert "No tilt on the card stands to" in words(found)
    assert not re.search(r"\bSet\b|Leave it at", words(found))


def test_an_unproved_gauge_tells_no_seconds_and_marks_its_mark(spruce) -> None:
    assert not spruce.card.proved
    unproved = line(spruce, "clear, gusts 15 mph", lies=Reading(25.0))
    assert unproved.move is not None
    assert unproved.move.from_s is None
    assert "to mark ~" in words(unproved)
    assert any("unproved" in note for note in unproved.notes)
    proved = line(replace(spruce, card=replace(spruce.card, proved=True)), "clear, gusts 15 mph", lies=Reading(25.0))  # fmt: skip
    assert proved.move is not None
    assert proved.move.key == "out"
    assert re.search(r"out key \d+ to \d+ s, to mark \d", words(proved))
    # the rod runs mark less mark; at a quarter inch a second that is the lower figure
    run = proved.move.mark_m - proved.move.from_mark_m
    assert proved.move.from_s == pytest.approx(run / (0.25 * 0.0254), rel=0.01)
    assert proved.move.to_s > proved.move.from_s


def test_not_knowing_where_it_lies_tells_no_seconds_and_counts_the_whole_way(spruce) -> None:
    proved = replace(spruce, card=replace(spruce.card, proved=True))
    found = line(proved, "clear, gusts 15 mph", lies=None)
    assert found.move is not None
    assert (found.move.from_s, found.move.key) == (None, "")
    assert found.move.under_m_s == pytest.approx(30.0 * MPH)
    assert any("not known" in note for note in found.notes)


def test_stale_readings_are_told(spruce) -> None:
    found = line(spruce, "clear, gusts 15 mph", charge=Reading(0.6, 50.0), lies=Reading(65.0, 60.0))
    assert any("charge is from Monday" in note for note in found.notes)
    assert any("look before you press" in note for note in found.notes)
    assert all(one.sureness == "guess" for one in found.sentences if "ngine" in one.text)


def test_what_was_not_understood_is_told(spruce) -> None:
    found = line(spruce, "clear, gusts 45")
    assert any("Not understood" in note and "needs its unit" in note for note in found.notes)


def test_full_by_noon_the_firmer_tilt_wins(spruce) -> None:
    """In July the bank is full whatever the tilt: the one that stands to most."""
    found = line(spruce, "clear, gusts 10 mph", at=SUMMER, charge=Reading(0.97), lies=Reading(45.0))
    assert found.move is not None
    card = spruce.card
    assert card.stands_to_m_s(found.move.to_deg) >= 0.95 * max(card.stands_to_m_s(t) for t in card.tried())  # fmt: skip


def test_a_low_bank_in_november_is_not_laid_flat_for_nothing(spruce) -> None:
    found = line(spruce, "clear, gusts 10 mph", charge=Reading(0.6), lies=Reading(10.0))
    assert found.move is not None
    assert found.move.to_deg > 40.0


def test_away_in_thunder_season_takes_the_ten_year_gust(spruce) -> None:
    ten = spruce.climate.gust_of_m_s(10.0)
    home = line(spruce, "clear, gusts 10 mph; gusts 10 mph", at=SUMMER)
    away = line(spruce, "clear, gusts 10 mph; gusts 10 mph", at=SUMMER, away=Away("2 days", 2.0))
    winter = line(spruce, "clear, gusts 10 mph; gusts 10 mph", away=Away("2 days", 2.0))
    assert home.upper_m_s < ten <= away.upper_m_s
    assert winter.upper_m_s < ten


def test_hail_wants_steep_and_wind_flat_and_both_are_told(spruce) -> None:
    quarrel = line(spruce, "hail tonight, gusts 30 mph", at=SUMMER, lies=Reading(25.0))
    assert "Hail wants it steep, the wind does not let it." in words(quarrel)


def test_snow_tonight_steepens_it_where_the_wind_allows(spruce) -> None:
    found = line(spruce, "grey, gusts 10 mph, 6 in snow tonight", lies=Reading(25.0), charge=Reading(0.9))  # fmt: skip
    ends = found.tonight.tilt_deg if found.tonight is not None else 0.0
    assert ends >= 65.0
    windy = line(spruce, "grey, gusts 55 mph, 6 in snow tonight", lies=Reading(25.0))
    assert "Snow wants it steep" in words(windy) or windy.stop


def test_the_logs_gust_bias_raises_the_gust(spruce) -> None:
    plain = line(spruce, "gusts 30 mph")
    taught = line(spruce, "gusts 30 mph", taught=Taught(1.0, 0.0, 1.3, 60))
    assert taught.upper_m_s == pytest.approx(1.3 * plain.upper_m_s, abs=MPH)


def test_the_engine_is_called_on_a_low_dull_morning(spruce) -> None:
    found = line(spruce, "grey, gusts 10 mph", charge=Reading(0.5))
    assert re.search(r"Engine .* h, now\.", words(found))


def test_metric_owners_read_metres_a_second(moss) -> None:
    found = line(moss, "grey, gusts 10 m/s", at=datetime(2026, 11, 25, 8, 0), lies=Reading(40.0))
    said = words(found) + found.if_wrong
    assert "m/s" in said
    assert "mph" not in said


def test_why_has_five_lines_each_with_its_working(spruce) -> None:
    for found in (line(spruce, "clear, gusts 15 mph", lies=Reading(25.0)), line(spruce, "", glass="iced")):  # fmt: skip
        assert len(found.why) == 5
        assert all(one.working.steps for one in found.why)


def test_the_strip_has_three_days(spruce) -> None:
    found = line(spruce, "clear, gusts 15 mph")
    assert len(found.upper_by_hour) == len(found.gust_by_hour) == 72
    assert found.ahead is not None
    assert len(found.ahead.charge_mid) == 73


speeds = st.floats(0.5, 50.0)
spans = st.builds(
    Span, from_h=st.sampled_from([0.0, 6.0, 18.0]), to_h=st.sampled_from([19.0, 31.0, 55.0]), gust_m_s=st.none() | speeds,
    sky=st.sampled_from([None, "clear", "broken", "grey"]), snow_m=st.sampled_from([None, 0.02, 0.3]), thunder=st.booleans(), hail=st.booleans(),
)  # fmt: skip


@settings(max_examples=40, deadline=None)
@given(
    told=st.lists(spans, max_size=3), lies=st.none() | st.floats(0.0, 90.0), charge=st.none() | st.floats(0.0, 1.0), glass=st.sampled_from(GLASS),
    snow=st.sampled_from([None, 0.0, 0.05, 0.5]), blows=st.none() | speeds, days=st.sampled_from([0.0, 1.0, 3.0]), dark=st.booleans(),
    hour=st.integers(0, 23), month=st.integers(1, 12), proved=st.booleans(), style=st.sampled_from(["feet", "metric"]),
)  # fmt: skip
def test_whatever_happens_it_never_advises_into_the_wind(
    spruce, told, lies, charge, glass, snow, blows, days, dark, hour, month, proved, style
) -> None:
    """The rules once more on what is said at the end, from the card's own curves."""
    at = datetime(2026, month, 14, hour, 20)
    basis = replace(spruce, card=replace(spruce.card, proved=proved))
    away = Away(f"{days:.0f} days", days) if days else Away("till dark" if dark else "home", till_dark=dark)  # fmt: skip
    seen = Seen(at, None if lies is None else Reading(lies), None if charge is None else Reading(charge), glass, snow, blows, away)  # fmt: skip
    forecast = Forecast("heard", at.date(), tuple(told)) if told else nothing_heard(at.date())
    found = morning_of(basis, seen, forecast, style)
    card, unit = basis.card, "mph" if style == "feet" else "m/s"
    assert 1 <= len(found.sentences) <= 5
    assert len(found.why) == 5
    curve = dict(zip(card.tilts_deg, card.locked_m_s, strict=True))
    heard = [span.gust_m_s for span in told if span.gust_m_s is not None and span.to_h > hour + 1 and span.from_h <= hour]  # fmt: skip
    if found.move is not None:
        move = found.move
        assert not found.stop
        assert glass not in ("iced", "buried")
        assert glass != "covered" or snow is not None
        assert snow is None or snow < 0.13
        moves = card.move_m_s
        if blows is not None:
            way = min(m for t, m in zip(card.tilts_deg, moves, strict=True) if lies is None or min(lies, move.to_deg) <= t <= max(lies, move.to_deg))  # fmt: skip
            assert blows < way
        nearest = min(curve, key=lambda t: abs(t - move.to_deg))
        assert curve[nearest] >= max(heard, default=0.0)
        assert "only under" in words(found)
        assert (move.from_s is None) or (proved and lies is not None)
    if not found.stop and found.tonight is not None:
        assert in_unit(found.tonight.stands_to_m_s, unit) >= in_unit(found.tonight.upper_m_s, unit) - 1e-6  # fmt: skip
    if found.stop:
        assert found.tonight is None
        assert not re.search(r"\d s\b|\bmark\b|\bkey\b", words(found))
    if not any(span.gust_m_s is not None for span in told):
        assert found.stop or found.sentences[0].sureness == "guess"


ODD = (
    ("gusts over 70 mph", "gusts 70 mph"), ("gusts 70", "gusts 70 mph"), ("gusts to 70", "gusts 70 mph"), ("isolated gusts 60 mph", "gusts 60 mph"),
    ("gusts near 60 mph", "gusts 60 mph"), ("NW 20g35 kt", "gusts 35 kt"), ("winds around 30 mph", "wind 30 mph"), ("gusts 60 miles per hour", "gusts 60 mph"),
    ("tomorrow night gusts over 50 mph", "tomorrow night gusts 50 mph"), ("gusts over 60 mph tonight", "gusts 60 mph tonight"),
    ("clear, gusts 10 mph, peak gusts of 60 mph", "clear, gusts 60 mph"), ("beaufort 8", "gusts 31 m/s"),
)  # fmt: skip


@pytest.mark.parametrize(("odd", "plain"), ODD)
def test_odd_wording_makes_no_line_bolder(spruce, odd, plain) -> None:
    """Where it may be left it stands to what the plain words call for; and it is a guess."""
    heard, well = line(spruce, odd), line(spruce, plain)
    assert heard.upper_m_s >= well.upper_m_s
    assert heard.stop or heard.stands_to_m_s >= well.upper_m_s
    assert not [
        one
        for one in heard.sentences
        if re.search(r"Set|Leave|gust|blow", one.text) and one.sureness != "guess"
    ]


@pytest.mark.parametrize("words", ["storm warning", "hurricane force winds", "blizzard", "microburst", "derecho", "chinook", "red flag warning", "tornado"])  # fmt: skip
@pytest.mark.parametrize("beside", ["", "clear, gusts 10 mph, "])
def test_words_of_a_storm_are_the_ten_year_gust(spruce, words, beside) -> None:
    found = line(spruce, beside + words)
    ten_years = spruce.climate.gust_of_m_s(10.0)
    assert found.upper_m_s >= ten_years
    assert found.stop or found.stands_to_m_s >= ten_years
    assert not [
        one
        for one in found.sentences
        if re.search(r"Set|Leave|gust|blow", one.text) and one.sureness != "guess"
    ]


def test_glass_not_looked_at_is_under_snow_where_snow_lies(spruce, moss) -> None:
    """At the Spruce snow falls in November, not in July; at the Moss never."""
    told = "Glass not looked at: taken as under snow."
    looked, not_looked = (
        line(spruce, "gusts 20 mph"),
        line(spruce, "gusts 20 mph", glass="not looked"),
    )
    assert told in not_looked.notes
    assert told not in looked.notes
    assert told not in line(spruce, "gusts 20 mph", glass="not looked", at=SUMMER).notes
    assert (
        told in line(spruce, "gusts 20 mph", glass="not looked", at=SUMMER, snow_of_late=True).notes
    )
    assert told not in line(moss, "gusts 20 mph", glass="not looked").notes
    card = spruce.card
    assert not_looked.stands_to_m_s <= card.stands_to_m_s(
        not_looked.stays_deg or not_looked.move.to_deg, under_snow=True
    )


def test_snow_told_for_the_night_lowers_what_it_stands_to(spruce) -> None:
    """Where it lies through the night it stands to no more than the snow column says."""
    found = line(spruce, "gusts 30 mph, 10 in snow tonight")
    assert found.tonight.stands_to_m_s <= spruce.card.stands_to_m_s(
        found.tonight.tilt_deg, under_snow=True
    )
    assert "under snow" in found.why[4].text
    assert line(spruce, "gusts 65 mph tonight, 10 in snow tonight").stop


def test_snow_told_without_a_depth_is_snow_that_counts(spruce) -> None:
    found = line(spruce, "gusts 30 mph, heavy snow tonight")
    assert found.stands_to_m_s <= spruce.card.stands_to_m_s(
        found.stays_deg or found.move.to_deg, under_snow=True
    )


@pytest.mark.parametrize(("hour", "said"), [(9, "Brush it from the side"), (19, "In the dark nothing is moved: at dawn brush it")])  # fmt: skip
def test_a_stop_for_snow_alone_says_what_stands_when_it_is_brushed_off(spruce, hour, said) -> None:
    found = line(spruce, "gusts 65 mph", glass="not looked", at=AT.replace(hour=hour))
    assert found.stop
    assert said in words(found)
    assert "bare," in words(found)
