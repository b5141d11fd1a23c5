"""Two clocks: sums in the place's standard time, hours told as the owner's wall shows them, on both sides of a change of clocks."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from polestead.daybook.daybook import empty_daybook
from polestead.daybook.entry import Entry, Moment
from polestead.morning.clock import PlaceClock, in_standard, place_clock
from polestead.morning.decide import morning_of
from polestead.morning.forecast.words import read_heard
from polestead.morning.remembered import entries_of, remembering
from polestead.morning.rules import hours_of
from polestead.morning.seen import Away, Reading, Seen

CHICAGO = ZoneInfo("America/Chicago")
GOES_ON, GOES_BACK = date(2026, 3, 8), date(2026, 11, 1)  # two in the morning, by federal law


def zone(name: str):
    return lambda utc: utc.astimezone(ZoneInfo(name)).utcoffset()


def clock() -> PlaceClock:
    return PlaceClock(-6.0, zone("America/Chicago"))


def at(day: date, hour: int, minute: int = 0) -> datetime:
    return datetime.combine(day, time(hour, minute))


@pytest.mark.parametrize(
    ("wall", "standard"),
    [
        (at(date(2026, 1, 10), 7, 10), at(date(2026, 1, 10), 7, 10)),  # winter: one clock
        (at(date(2026, 7, 1), 7, 10), at(date(2026, 7, 1), 6, 10)),  # summer: an hour back
        (at(date(2026, 7, 1), 0, 30), at(date(2026, 6, 30), 23, 30)),  # past midnight it is still the day before
        (at(GOES_ON, 1, 59), at(GOES_ON, 1, 59)), (at(GOES_ON, 3, 0), at(GOES_ON, 2, 0)),  # no hour from two to three
        (at(GOES_ON, 2, 30), at(GOES_ON, 2, 30)),  # never was: by the clock before
        (at(GOES_BACK, 0, 30), at(date(2026, 10, 31), 23, 30)), (at(GOES_BACK, 1, 30), at(GOES_BACK, 0, 30)),  # came twice: the earlier
        (at(GOES_BACK, 1, 30).replace(fold=1), at(GOES_BACK, 1, 30)), (at(GOES_BACK, 2, 30), at(GOES_BACK, 2, 30)),
    ],
)  # fmt: skip
def test_what_the_wall_shows_in_standard_time(wall, standard) -> None:
    assert clock().standard(wall) == standard
    if wall != at(GOES_ON, 2, 30):
        assert clock().wall(standard).replace(tzinfo=None) == wall.replace(fold=0)


def test_a_moment_of_any_zone_is_the_same_moment() -> None:
    """7:10 of the central summer clock is 14:10 in Berlin and 12:10 by UTC."""
    for moment in (datetime(2026, 7, 1, 14, 10, tzinfo=ZoneInfo("Europe/Berlin")), datetime(2026, 7, 1, 12, 10, tzinfo=UTC)):  # fmt: skip
        assert clock().standard(moment) == datetime(2026, 7, 1, 6, 10)


def test_whose_clock_is_taken(spruce, moss) -> None:
    """The machine's where its standard time is the place's; else standard time, and it is told."""
    here = place_clock(spruce.facts, 2026, zone("America/Chicago"))
    assert (here.told, here.ahead_h(datetime(2026, 7, 1)), here.ahead_h(datetime(2026, 1, 1))) == ("", 1.0, 0.0)  # fmt: skip
    away = place_clock(spruce.facts, 2026, zone("America/Denver"))
    assert away.told == "~ This machine's clock is of another zone (UTC−7): hours here are the place's standard time, UTC−6, never summer time."  # fmt: skip
    assert away.ahead_h(datetime(2026, 7, 1)) == 0.0
    assert away.standard(datetime(2026, 7, 1, 7, 10, tzinfo=ZoneInfo("America/Denver"))) == datetime(2026, 7, 1, 7, 10)  # fmt: skip
    assert place_clock(moss.facts, 2026, zone("Europe/Dublin")).ahead_h(datetime(2026, 7, 1)) == 1.0
    # on the south side summer time holds over the new year, and the lesser of the two is standard
    south = replace(spruce.facts, clock_offset_h=10.0)
    assert place_clock(south, 2026, zone("Australia/Hobart")).ahead_h(datetime(2026, 1, 1)) == 1.0
    # a file that writes no offset bears a zone an hour from its longitude's, no more
    untold = replace(spruce.facts, clock_told=False)
    assert place_clock(untold, 2026, zone("America/Denver")).told == ""
    assert "UTC+1" in place_clock(untold, 2026, zone("Europe/Berlin")).told


def test_a_deadline_is_told_as_the_owners_clock_shows_it(spruce) -> None:
    """Mid-October is summer time: the seventeenth hour of the sums is six in the evening on the wall; after the change it is five."""
    words = "clear, gusts 15 mph by dark, gusts 60 mph after dark; grey; grey"
    for day, ahead in ((date(2026, 10, 15), 1), (date(2026, 11, 5), 0)):
        seen = Seen(clock().standard(at(day, 7, 10)), Reading(65.0), Reading(0.8), "bare", clock=clock())  # fmt: skip
        found = morning_of(spruce, seen, in_standard(read_heard(words, day), clock()))
        night = found.tonight
        assert night is not None
        assert night.by_h is not None
        assert night.by_wall == at(day, int(night.by_h) + ahead)
        assert (found.wall, found.good_until) == (at(day, 7, 10), night.by_wall)
        hour = f"by {night.by_wall.hour - 12} pm"
        assert any(hour in one.text for one in found.sentences)
        assert hour.replace("by", "By") in found.why[4].text
        steps = [step for one in found.why for step in one.working.steps if "clock" in step.word]
        assert [step.value for step in steps] == [float(ahead)]
        assert ("summer time" in steps[0].formula) == bool(ahead)


def test_an_hour_that_was_heard_is_his_clocks(spruce) -> None:
    heard = read_heard("gusts 60 mph after 5 pm", date(2026, 7, 1))
    (span,) = in_standard(heard, clock()).spans
    assert (span.from_h, span.to_h) == (16.0, 30.0)  # to seven in the morning by his clock
    (winter,) = in_standard(read_heard("gusts 60 mph after 5 pm", date(2026, 1, 10)), clock()).spans
    assert (winter.from_h, winter.to_h) == (17.0, 31.0)


@pytest.mark.parametrize(("eve", "hours"), [(date(2026, 3, 7), 30.0), (date(2026, 10, 31), 31.0), (date(2026, 6, 10), 30.0), (date(2026, 1, 10), 31.0)])  # fmt: skip
def test_seven_in_the_morning_is_his_seven_over_a_change_of_clocks(eve, hours) -> None:
    """The night before the clocks go on it is the sixth hour of standard time that shows seven; before they go back the seventh."""
    wall = at(eve, 7, 10)
    seen = Seen(clock().standard(wall), clock=clock())
    assert hours_of(seen, 17.0).again_h == hours
    (span,) = in_standard(read_heard("gusts 40 mph tonight", eve), clock()).spans
    assert span.to_h == hours


def test_he_is_back_by_his_own_clock() -> None:
    seen = Seen(datetime(2026, 7, 1, 6), away=Away("till dark", till_dark=True), clock=clock())
    assert hours_of(seen, 19.5, back_hour=18.0).back_h == 17.0


def test_a_change_of_clocks_ahead_is_told(spruce) -> None:
    def notes(day: date) -> str:
        seen = Seen(clock().standard(at(day, 7, 10)), Reading(65.0), Reading(0.8), clock=clock())
        return " ".join(morning_of(spruce, seen, read_heard("clear, gusts 10 mph", day)).notes)

    assert "The clocks go on by tomorrow" in notes(date(2026, 3, 7))
    assert "The clocks go back by tomorrow" in notes(date(2026, 10, 31))
    assert "The clocks" not in notes(date(2026, 11, 2))


def test_the_daybook_is_read_by_the_moment_whatever_clock_wrote_it(spruce) -> None:
    """Written at 13:00 by a clock of UTC, read at 7:10 by the central one: ten minutes ago, not six hours ahead."""
    wall = datetime(2026, 11, 25, 7, 10, tzinfo=CHICAGO)
    seen = Seen(clock().standard(wall), clock=clock())
    with empty_daybook() as book:
        book.append(Entry(Moment(date(2026, 11, 25), time(13), 0), charge=0.6, note="heard: clear, gusts 20 mph"), wall)  # fmt: skip
        found = remembering(seen, book, spruce, "feet")
    assert found.seen.charge is not None
    assert found.seen.charge.age_h == pytest.approx(1.0 / 6.0)
    assert found.heard is not None


def test_what_is_kept_bears_the_owners_clock_and_its_offset(spruce) -> None:
    seen = Seen(datetime(2026, 7, 1, 6, 10), Reading(25.0), Reading(0.8, 2.0), clock=clock())
    line = morning_of(spruce, seen, read_heard("clear, gusts 10 mph", date(2026, 7, 1)))
    early, now = entries_of(seen, line, lambda _: timedelta(hours=99))
    assert now.moment == Moment(date(2026, 7, 1), time(7, 10), -300)
    assert early.moment == Moment(date(2026, 7, 1), time(5, 10), -300)
