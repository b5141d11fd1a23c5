"""Each rule that never bends, quoted, against forecasts and logs that lie."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from pathlib import Path

import pytest

from polestead.base.problem import Wrong
from polestead.daybook.daybook import empty_daybook
from polestead.daybook.entry import Entry, Moment
from polestead.morning.decide import morning_of
from polestead.morning.forecast.file_in import read_forecast_file
from polestead.morning.forecast.forecast import Forecast, Span, nothing_heard
from polestead.morning.forecast.gust_ahead import week_gust_m_s
from polestead.morning.forecast.words import read_heard
from polestead.morning.remembered import house_in, remembering
from polestead.morning.result import Morning
from polestead.morning.seen import GLASS, Away, Reading, Seen
from tests.morning.given import AT, MPH, card

CONVENTIONS = (Path(__file__).parents[2] / "docs/conventions.md").read_text(encoding="utf-8")
SEEN = Seen(AT, lies=Reading(65.0), charge=Reading(0.7), glass="bare")
LYING = (
    "", "gusts 10,000 kt", "gusts -40 mph", "gusts nan mph", "gusts inf mph", "gusts 45", "wind 40 mph, gusts 20 mph", "gusts 20 m/h",
    "gusts 45 km/h or 45 kt", "gusts 0 mph", "gusts 20 mph yesterday", "gusts 20 mph next year", "gusts 100 m/s", "gusts 99 kt", "low 40 C, high -60 C",
    "gusts 15 mph, gusts 400 mph", "clear, gusts 5 mph, storm", "hail, gusts 50 mph, 30 in snow tonight", "gusts 60 mph in the north", "thunder",
    "gusts 10 mph; gusts 90 mph; gusts -9 mph", "gusts 12 km/h from 9 pm to 9 am", "calm", ";;;,,,",
)  # fmt: skip


def quoted(number: int, words: str) -> None:
    """The sentence stands in the conventions, under that number."""
    text = " ".join(CONVENTIONS.split())
    after = text.split(f"**§{number} ", 1)[1].split("**§", 1)[0]
    assert " ".join(words.split()) in after.replace("**", "")


def every_line(basis, **changes) -> Iterator[tuple[str, Seen, Morning]]:
    for text in LYING:
        seen = replace(SEEN, **changes)
        heard = read_heard(text, seen.at.date(), basis.facts.units == "feet") if text else nothing_heard(seen.at.date())  # fmt: skip
        yield text, seen, morning_of(basis, seen, heard)


def words(found: Morning) -> str:
    return " ".join([*(one.text for one in found.sentences), found.if_wrong, *(one.text for one in found.why), *found.notes])  # fmt: skip


def stands(basis, tilt_deg: float) -> float:
    """The weakest within a degree of it on the card's own curve of the storm hold, not rounded."""
    card = basis.card
    return min(gust for tilt, gust in zip(card.tilts_deg, card.locked_m_s, strict=True) if abs(tilt - tilt_deg) <= 1.0)  # fmt: skip


@pytest.mark.parametrize("changes", [{}, {"lies": None, "charge": None}, {"away": Away("3 days", 3.0)}, {"at": datetime(2026, 7, 1, 19, 40)}])  # fmt: skip
def test_no_tilt_under_the_upper_gust(spruce, moss, changes) -> None:
    quoted(19, "names no tilt whose stands-to, as shown (§13), is under the upper gust of the hours it must hold.")  # fmt: skip
    for basis in (spruce, moss):
        for text, _, found in every_line(basis, **changes):
            if found.tonight is not None:
                assert stands(basis, found.tonight.tilt_deg) >= found.tonight.upper_m_s - 1e-9, text
            if found.move is not None and found.tonight is not None and found.tonight.by_h is None:
                assert stands(basis, found.move.to_deg) >= found.upper_m_s - 1e-9, text
            for one in found.outlook:
                if one.tilt_deg is not None and one.by_wall is None:
                    assert stands(basis, one.tilt_deg) >= one.upper_m_s - 1e-9, text


def test_no_move_over_the_moving_gust(spruce, moss) -> None:
    quoted(20, "Nothing is moved while it blows as hard as the least moving gust of the whole way, nor iced, buried, under more than 5 psf of snow, or under snow nobody measured.")  # fmt: skip
    for basis in (spruce, moss):
        least = min(basis.card.move_m_s)
        for glass in GLASS:
            for snow in (None, 0.2):
                for _, seen, found in every_line(basis, glass=glass, snow_m=snow, blows_m_s=least - 3.0 if glass == "bare" else None, lies=Reading(20.0)):  # fmt: skip
                    if found.move is not None:
                        assert seen.glass not in ("iced", "buried")
                        assert snow is None
                        assert seen.glass != "covered"
        for text, _, found in every_line(basis, blows_m_s=max(basis.card.move_m_s) + 1.0, lies=Reading(20.0)):  # fmt: skip
            assert found.move is None, text


def test_an_unproved_gauge_tells_no_seconds(spruce) -> None:
    quoted(21, "Seconds of key are told only with a gauge proved by two measured pairs and where it is known where the array lies; an unproved mark carries `~`.")  # fmt: skip
    proved = replace(spruce, card=replace(spruce.card, proved=True))
    for basis, lies in ((spruce, Reading(20.0)), (spruce, None), (proved, None)):
        for text, _, found in every_line(basis, lies=lies):
            assert not re.search(r"key \d|\d s,", words(found)), text
            assert found.move is None or (found.move.from_s, found.move.to_s) == (None, None)
            if basis is spruce:
                assert not re.search(r"to mark \d", words(found)), text


def test_a_move_left_for_later_is_done_before_snow_and_nothing_in_the_dark(spruce) -> None:
    quoted(20, "Where snow that counts is told, such a move is done before it falls.")
    quoted(20, "In the dark nothing is moved: a move told before sunrise names the hour when it is light, and after sundown it stays, or it is a stop.")  # fmt: skip
    for hour in (5, 9, 13, 21):
        at = datetime(2026, 11, 25, hour, 0)
        light = spruce.sunup_h[328], spruce.sundown_h[328]
        for snow_h, gust_m_s in ((14.0, 12.0), (15.0, 27.0), (40.0, 27.0)):
            told = Forecast("heard", at.date(), (
                Span(0.0, snow_h, gust_m_s=5.0), Span(snow_h, 55.0, gust_m_s=gust_m_s, snow_m=0.1),
            ))  # fmt: skip
            found = morning_of(spruce, replace(SEEN, at=at, lies=Reading(25.0)), told)
            if found.tonight is not None and found.tonight.by_h is not None:
                assert found.tonight.by_h <= light[1]
                assert found.tonight.by_h <= snow_h or hour >= snow_h
            if found.move is not None:
                assert hour < light[1]
                assert (found.move.light_wall is not None) == (hour < light[0])


@pytest.mark.parametrize(
    ("told", "by_h"),
    [
        ("freezing rain from 11 am", 11.0), ("sleet from 8:30", 8.5), ("sleet", 8.5), ("freezing spray", 8.5), ("rain from 11 am", 16.0),
    ],
)  # fmt: skip
def test_a_move_left_for_later_is_done_before_ice(spruce, told, by_h) -> None:
    quoted(20, "So it is where ice is told: rain that freezes, or sleet; what may fall at any hour leaves the first one.")  # fmt: skip
    at = datetime(2026, 11, 25, 7, 30)
    assert spruce.sunup_h[328] < 7.5 < 16.0 < spruce.sundown_h[328] < 17.0
    heard = read_heard(f"gusts 10 mph, {told}, gusts 60 mph after dark", at.date(), True, 7.5)
    found = morning_of(spruce, replace(SEEN, at=at), heard)
    assert found.tonight is not None
    assert found.tonight.by_h == pytest.approx(by_h)
    assert ("before snow or ice" in words(found)) == (not told.startswith("rain"))
    # gone until dark he cannot come back in time
    gone = morning_of(spruce, replace(SEEN, at=at, away=Away("till dark", 0.0, True)), heard)  # fmt: skip
    assert gone.tonight is None or gone.tonight.by_h is None or told.startswith("rain")


def test_snow_told_in_parts_counts_by_its_sum(spruce) -> None:
    quoted(20, "Snow told in parts counts from where its sum does.")
    at = datetime(2026, 11, 25, 8, 0)
    spans = tuple(Span(6.0 * nth, 6.0 * nth + 6.0, gust_m_s=5.0 if nth < 3 else 27.0, snow_m=0.006) for nth in (1, 2, 3, 4))  # fmt: skip
    whole = Forecast("service", at.date(), (*spans[:1], replace(spans[1], snow_m=0.012), *spans[2:]))  # fmt: skip
    lines = [morning_of(spruce, replace(SEEN, at=at), told) for told in (Forecast("service", at.date(), spans), whole)]  # fmt: skip
    assert lines[0].upper_m_s == lines[1].upper_m_s
    assert lines[0].stands_to_m_s == lines[1].stands_to_m_s
    assert [one.stop for one in lines] == [lines[1].stop] * 2


def test_where_no_tilt_holds_the_line_says_so(spruce) -> None:
    quoted(19, "Where no tilt holds, the line says so, and names as the stop's act the firmest that can be reached, by the rules of §20, where that is a tenth firmer than where it lies; people are kept away.")  # fmt: skip
    quoted(24, "A wind without its unit is asked about, and what each unit would decide is told where they differ.")  # fmt: skip
    for text, _, found in every_line(spruce, lies=Reading(65.0)):
        if found.firmest is None:
            continue
        assert found.stop
        assert "No tilt on the card stands to" in words(found), text
        assert "keep everybody away" in words(found)
        assert stands(spruce, found.firmest.tilt_deg) > stands(spruce, 65.0)


def test_the_stop_state_shows_neither_key_nor_seconds_nor_mark(spruce) -> None:
    quoted(22, "Where the line says *Do not move it*, it shows neither key nor seconds nor mark.")
    proved = replace(spruce, card=replace(spruce.card, proved=True))
    stopped = 0
    for changes in ({"glass": "iced"}, {"glass": "covered"}, {"blows_m_s": 40 * MPH, "lies": Reading(20.0)}, {}):  # fmt: skip
        for text, _, found in every_line(proved, **changes):
            if found.stop:
                stopped += 1
                act = found.firmest is not None and found.firmest.allowed
                assert act != (found.sentences[0].text == "Do not move it.")
                assert not re.search(r"\d s\b|\bmark\b|\bkey\b", words(found)), text
                assert (found.move, found.tonight, found.outlook) == (None, None, ())
    assert stopped > 2 * len(LYING)


def test_no_forecast_is_said_and_widened(spruce, moss) -> None:
    quoted(23, "The line then takes the gust that one such week in ten sees, or the one of the owner's chance if that is more, and no sentence about wind is surer than a guess.")  # fmt: skip
    for basis in (spruce, moss):
        for text, seen, found in every_line(basis):
            if found.gust_m_s is None:
                assert found.upper_m_s >= week_gust_m_s(basis.climate, seen.at.month), text
                assert re.match(r"No (forecast|gust told)\.", found.sentences[0].text) or found.stop, text  # fmt: skip
                wind = [one for one in found.sentences if re.search(r"Set|Leave|Stays|Flat|At \d|stand", one.text)]  # fmt: skip
                assert {one.sureness for one in wind} <= {"guess"}, text


@pytest.mark.parametrize("text", ["gusts 15 mph, gusts 10,000 kt", "clear, gusts 5 mph, storm", "gusts 15 mph, gusts 400 mph", "gusts 8 mph, hurricane"])  # fmt: skip
def test_wind_that_was_not_understood_is_told_and_never_makes_the_line_bolder(spruce, text) -> None:
    """The low gust beside it is not believed alone: the climate's is the least."""
    quoted(24, "what was heard and not understood is told, and nothing bolder is made of it")  # fmt: skip
    found = morning_of(spruce, SEEN, read_heard(text, AT.date()))
    assert found.upper_m_s >= week_gust_m_s(spruce.climate, AT.month)
    assert any("Not understood" in note for note in found.notes)
    assert any("That was of wind" in note for note in found.notes)
    moves = {one.sureness for one in found.sentences if one.text.startswith(("Leave", "Set", "Stays"))}  # fmt: skip
    assert moves == {"guess"} or (not moves and found.stop)  # a stop is never the bolder
    sky = morning_of(spruce, SEEN, read_heard("gusts 15 mph, purple", AT.date()))
    assert sky.upper_m_s < week_gust_m_s(spruce.climate, AT.month)


def test_a_gust_lower_than_its_own_wind_is_a_slip_and_the_wind_counts(spruce) -> None:
    slip = morning_of(spruce, SEEN, read_heard("wind 40 mph, gusts 20 mph", AT.date()))
    wind = morning_of(spruce, SEEN, read_heard("wind 40 mph", AT.date()))
    assert slip.upper_m_s >= wind.upper_m_s
    fair = morning_of(spruce, SEEN, read_heard("wind 20 mph, gusts 25 mph", AT.date()))
    assert fair.gust_m_s == pytest.approx(25 * MPH)


def test_stale_readings_are_told_with_their_day(spruce) -> None:
    quoted(24, "Stale readings are told with their day, and their range grows")
    for text, _, found in every_line(spruce, charge=Reading(0.7, 60.0), lies=Reading(65.0, 90.0)):
        assert any("charge is from" in note and "day" in note for note in found.notes), text
        assert any("last written down" in note for note in found.notes), text


def test_nobody_home_in_thunder_season(spruce, moss) -> None:
    quoted(25, "or thunder told: the site's ten-year gust is the least that is taken.")
    for basis in (spruce, moss):
        for text, _, found in every_line(basis, at=datetime(2026, 7, 1, 7, 0), away=Away("2 days", 2.0)):  # fmt: skip
            assert found.upper_m_s >= basis.climate.gust_of_m_s(10.0), text
    south = replace(spruce, facts=replace(spruce.facts, latitude_deg=-40.0, thunder_months=(11, 12, 1, 2, 3)))  # fmt: skip
    for text, _, found in every_line(south, at=datetime(2026, 1, 5, 7, 0), away=Away("2 days", 2.0)):  # fmt: skip
        assert found.upper_m_s >= south.climate.gust_of_m_s(10.0), text


def test_set_within() -> None:
    quoted(26, "A tilt stands to what the weakest tilt within the error it is set with stands to: 1° where the storm hold finds its hole, 2° by a proved gauge, 5° by an unproved one.")  # fmt: skip
    of = card()
    weak = tuple(1.0 if tilt == 36.0 else gust for tilt, gust in zip(of.tilts_deg, of.locked_m_s, strict=True))  # fmt: skip
    assert replace(of, locked_m_s=weak).stands_to_m_s(35.0) == 1.0
    assert replace(of, locked_m_s=weak).stands_to_m_s(25.0) > 1.0
    rod = tuple(1.0 if tilt == 34.0 else gust for tilt, gust in zip(of.tilts_deg, of.rod_m_s, strict=True))  # fmt: skip
    assert replace(of, rod_m_s=rod, proved=True).stands_to_m_s(32.0) == 1.0
    assert replace(of, rod_m_s=rod, proved=True).stands_to_m_s(30.0) > 1.0
    assert replace(of, rod_m_s=rod, proved=False).stands_to_m_s(29.0) == 1.0


# -- files and logs that lie -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("rows", [
    "from,to,gust\n2025-11-25T00:00,2025-11-26T00:00,5 mph\n", "from,to,gust\n2027-11-25T00:00,2027-11-26T00:00,5 mph\n",
])  # fmt: skip
def test_days_gone_by_and_a_year_ahead_tell_nothing_of_today(spruce, tmp_path, rows) -> None:
    path = tmp_path / "told.csv"
    path.write_text(rows)
    found = morning_of(spruce, SEEN, read_forecast_file(path, AT))
    assert found.sentences[0].text.startswith("No gust told.")
    assert found.upper_m_s >= week_gust_m_s(spruce.climate, AT.month)


@pytest.mark.parametrize("gust", ["nan mph", "inf mph", "-5 mph", "10000 kt", "20", "20 kg", "1e99 m/s"])  # fmt: skip
def test_a_file_of_gusts_no_weather_has_is_refused(tmp_path, gust) -> None:
    path = tmp_path / "told.csv"
    path.write_text(f"day,gust\n2026-11-25,{gust}\n")
    with pytest.raises(Wrong):
        read_forecast_file(path, AT)


def test_spans_that_end_before_they_begin_or_lie_far_off_bring_nothing_down(spruce) -> None:
    for span in (Span(20.0, 10.0, 5.0), Span(-900.0, -800.0, 5.0), Span(9000.0, 9001.0, 5.0), Span(0.0, 0.0, 5.0)):  # fmt: skip
        found = morning_of(spruce, SEEN, Forecast("file", AT.date(), (span,)))
        assert found.upper_m_s >= week_gust_m_s(spruce.climate, AT.month)


def test_a_log_that_lies_is_told_or_refused_and_the_rules_hold(spruce) -> None:
    """Two lines of the same minute, a clock that went back, figures no house has."""
    house = house_in(spruce, "feet")
    day = date(2026, 11, 24)
    with empty_daybook() as book:
        for absurd in (Entry(Moment(day), new_wh=9e6), Entry(Moment(day), tilt_deg=140.0), Entry(Moment(day), charge=3.0), Entry(Moment(day), gust_m_s=float("nan"))):  # fmt: skip
            with pytest.raises(Wrong):
                book.append(absurd, AT, house)
        later = AT + timedelta(days=3)
        for charge, tilt in ((0.9, 20.0), (0.5, 65.0)):
            book.append(Entry(Moment(AT.date(), time(6)), charge=charge, tilt_deg=tilt), AT, house)
        book.append(Entry(Moment(later.date(), time(6)), charge=0.95, tilt_deg=10.0), later, house)
        found = remembering(Seen(AT), book, spruce, "feet").seen
    assert found.charge is not None
    assert found.lies is not None
    assert (found.charge.value, found.lies.value) == (0.5, 65.0)  # of one minute the last written
    assert any("still to come" in words for words in found.told)
    for text, _, line in every_line(spruce, lies=found.lies, charge=found.charge, told=found.told):
        assert line.tonight is None or stands(spruce, line.tonight.tilt_deg) >= line.tonight.upper_m_s, text  # fmt: skip
