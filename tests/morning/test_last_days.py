"""What the last days and the readings in the log do to the line: sky remembered, gusts met, tank, battery's warmth, factors taught."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, time, timedelta

import numpy as np
import pytest

from polestead.daybook.daybook import empty_daybook
from polestead.daybook.entry import Entry, Moment
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.morning.ahead import FROM_YESTERDAY, drawn, fuel_l_h
from polestead.morning.basis import Basis, basis_of
from polestead.morning.decide import morning_of
from polestead.morning.forecast.forecast import nothing_heard
from polestead.morning.forecast.words import read_heard
from polestead.morning.learned import LEAST_GUSTS
from polestead.morning.remembered import remembering
from polestead.morning.result import Morning
from polestead.morning.seen import LastSun, Reading, Seen, Tank
from tests.daybook.teaching.planted import house_log
from tests.morning.given import AT, MPH

SEEN = Seen(AT, lies=Reading(65.0), charge=Reading(0.78), glass="bare")


def known(basis: Basis, *entries: Entry, seen: Seen = SEEN) -> Seen:
    with empty_daybook() as book:
        book.append_all(entries, AT + timedelta(days=30))
        return remembering(seen, book, basis, "feet").seen


def on(day: int, hour: int | None = 18, **seen) -> Entry:
    return Entry(Moment(date(2026, 11, day), None if hour is None else time(hour)), **seen)


def words(found: Morning) -> str:
    return " ".join(one.text for one in found.sentences)


# -- the sky of the last days ------------------------------------------------------------------------------------------


def test_a_poor_day_before_makes_a_poor_day_likelier_where_no_sky_is_told(spruce: Basis) -> None:
    """Of 24 drawn days the mean deviate is .3 of yesterday's; a told sky does away with it."""

    def clearness(seen: Seen, text: str = "") -> float:
        forecast = read_heard(text, AT.date()) if text else nothing_heard(AT.date())
        skies = drawn(spruce, seen, forecast)
        return float(spruce.clearness[skies.years[:, 0], skies.days[:, 0]].mean())

    poor, good = (replace(SEEN, last_sun=LastSun(1, stands, 1.0)) for stands in (-1.5, 1.5))
    assert clearness(poor) < clearness(SEEN) < clearness(good)
    assert clearness(poor, "clear") == clearness(good, "clear")
    long_ago = replace(SEEN, last_sun=LastSun(3, -1.5, 1.0))
    assert abs(clearness(long_ago) - clearness(SEEN)) < 0.35 * abs(
        clearness(poor) - clearness(SEEN)
    )
    assert FROM_YESTERDAY**3 < 0.03


def test_where_a_day_stood_is_found_from_what_was_made(spruce: Basis) -> None:
    """The day's energy among its season's at the tilt held: the median stands at nothing, the ends far out."""
    about = [(date(2026, 11, 24).timetuple().tm_yday - 1 + n) % 365 for n in range(-12, 13)]
    nth = int(np.argmin(abs(spruce.tilts_deg - 65.0)))
    assert spruce.tilts_deg[nth] == 65.0
    season = spruce.power[nth][:, about].sum(axis=2).ravel() * spruce.peak_w / 65535.0
    for share, least, most in ((0.5, -0.1, 0.1), (0.05, -2.0, -1.3), (0.95, 1.3, 2.0)):
        made = float(np.quantile(season, share))
        found = known(spruce, on(20, tilt_deg=65.0), on(24, new_wh=made, charge=0.8)).last_sun
        assert found is not None
        assert (found.days_ago, found.at_least) == (1, False)
        assert least < found.stands < most


def test_a_full_battery_never_makes_a_day_poor(spruce: Basis) -> None:
    poor = on(24, new_wh=500.0, charge=1.0)
    assert known(spruce, poor).last_sun is None
    good = known(spruce, on(24, new_wh=14000.0, charge=1.0)).last_sun
    assert good is not None
    assert good.at_least
    assert good.stands > 0.0
    # nobody read it in the evening, but it was far from full the morning after
    assert known(spruce, on(24, new_wh=500.0), on(25, 6, charge=0.6)).last_sun == LastSun(1, pytest.approx(-2.2, abs=1.0), 500.0)  # fmt: skip


@pytest.mark.parametrize("entry", [on(24, new_wh=500.0, charge=0.6, snow="covered"), on(20, new_wh=500.0, charge=0.6), on(24, charge=0.6)])  # fmt: skip
def test_what_tells_nothing_of_the_sky(spruce: Basis, entry: Entry) -> None:
    assert known(spruce, entry).last_sun is None


def test_it_is_said_in_words_and_stays_a_guess(spruce: Basis) -> None:
    found = morning_of(spruce, known(spruce, on(24, new_wh=500.0, charge=0.6)), nothing_heard(AT.date()))  # fmt: skip
    assert any(note.startswith("No sky told: yesterday made 0.5 kWh, a poor day of its season") for note in found.notes)  # fmt: skip
    assert {one.sureness for one in found.sentences if "Sundown" in one.text} == {"guess"}
    told = morning_of(spruce, known(spruce, on(24, new_wh=500.0, charge=0.6)), read_heard("clear, gusts 10 mph", AT.date()))  # fmt: skip
    assert not any("No sky told" in note for note in told.notes)


def test_a_gust_met_lately_is_the_least_that_is_taken_where_none_is_told(spruce: Basis) -> None:
    plain = morning_of(spruce, SEEN, nothing_heard(AT.date()))
    met = known(spruce, on(24, 2, gust_m_s=plain.upper_m_s + 10.0 * MPH, gust_seen="trees"))
    found = morning_of(spruce, met, nothing_heard(AT.date()))
    assert found.upper_m_s >= plain.upper_m_s + 10.0 * MPH
    assert any("Strongest gust met in the last two days" in note for note in found.notes)
    assert known(spruce, on(22, 2, gust_m_s=40.0)).met_m_s == 0.0


# -- tank and battery --------------------------------------------------------------------------------------------------


def test_the_tank_is_the_last_level_with_what_was_filled_and_burnt_since(spruce: Basis) -> None:
    size = spruce.plan.motor.tank_l
    found = known(spruce, on(10, tank_share=0.5), on(12, filled_l=100.0), on(13, engine_hours=4.0), on(14, engine_hours=3.0)).tank  # fmt: skip
    assert found == Tank(pytest.approx(0.5 * size + 100.0), pytest.approx(14 * 24 + 13 + 10 / 60), 7.0)  # fmt: skip
    assert known(spruce, on(10, tank_share=0.9), on(12, filled_l=2000.0)).tank.litres == size
    assert known(spruce, on(10, filled_l=100.0)).tank is None
    assert known(spruce, on(10, tank_share=0.5), on(20, tank_l=60.0)).tank.litres == 60.0


def test_a_low_tank_asks_to_be_filled_and_a_full_one_does_not(spruce: Basis) -> None:
    hour_l = fuel_l_h(spruce)
    heard = read_heard("grey, gusts 10 mph", AT.date())
    low = replace(SEEN, charge=Reading(0.5), tank=Tank(6.0 * hour_l, 5.0))
    assert "The tank gives about 6 h more: fill it." in words(morning_of(spruce, low, heard))
    full = replace(low, tank=Tank(400.0 * hour_l, 5.0))
    assert "fill it" not in words(morning_of(spruce, full, heard))
    assert any("about 400 engine-hours are left" in note for note in morning_of(spruce, full, heard).notes)  # fmt: skip
    old = morning_of(spruce, replace(low, tank=Tank(6.0 * hour_l, 300.0, 2.0)), heard)
    assert any(note.startswith("~ The tank was read") and "2.0 h written since taken off" in note for note in old.notes)  # fmt: skip
    assert "about 4 h more" in words(old)


def test_an_empty_tank_runs_no_engine(spruce: Basis) -> None:
    heard = read_heard("grey; grey; grey", AT.date())
    some, none = (morning_of(spruce, replace(SEEN, charge=Reading(0.5), tank=Tank(litres, 1.0)), heard).ahead for litres in (400.0, 0.0))  # fmt: skip
    assert some is not None
    assert none is not None
    assert some.engine.chance == 1.0
    assert none.engine.chance == 0.0
    assert none.sundown.mid < some.sundown.mid


@pytest.fixture(scope="module")
def mesa() -> Basis:
    return basis_of(read_homestead(demo_path("cinder-mesa")))


def test_a_lithium_bank_under_freezing_takes_no_charge_and_it_is_said(mesa: Basis) -> None:
    """Without its heater, at 25 F: the sun of the day does not raise the charge."""
    bare = replace(mesa, plan=mesa.plan._replace(bank=mesa.plan.bank._replace(heater_w=0.0)))
    seen = Seen(datetime(2026, 1, 14, 8, 0), Reading(50.0), Reading(0.6), "bare")
    heard = read_heard("clear, gusts 10 mph", seen.at.date())
    warm, cold = (morning_of(bare, replace(seen, bank_c=reading), heard) for reading in (Reading(15.0), Reading(-4.0)))  # fmt: skip
    assert warm.ahead is not None
    assert cold.ahead is not None
    assert warm.ahead.sundown.mid > 0.7
    assert cold.ahead.sundown.mid < 0.6
    assert "it takes no charge under 32 F; warm it first." in words(cold)
    assert "takes no charge" not in words(warm)


def test_a_lead_bank_about_to_freeze_is_told(spruce: Basis) -> None:
    """Acid of half charge freezes at about -8 F (a vehicle manual's table); at -10 F it may burst, at 20 F not."""
    heard = read_heard("grey, gusts 10 mph", AT.date())
    low = replace(SEEN, charge=Reading(0.5))
    assert "may freeze and burst it" in words(morning_of(spruce, replace(low, bank_c=Reading(-25.0)), heard))  # fmt: skip
    assert "freeze" not in words(morning_of(spruce, replace(low, bank_c=Reading(-6.0)), heard))


def test_the_batterys_warmth_is_read_from_a_note_and_ages(spruce: Basis) -> None:
    young = known(spruce, on(25, 6, note="bank: 28 F"))
    assert young.bank_c == Reading(pytest.approx(-2.222, abs=0.01), pytest.approx(70.0 / 60.0))
    assert "bank at 28 F from today 6:00" in young.told[0]
    old = known(spruce, on(22, 6, note="bank: 28 F"))
    assert old.bank_c is None
    assert "~ bank at 28 F Sunday 6:00: too old" in old.told[0]
    for slip in ("bank: 28", "bank: 280 F", "bank: warm"):
        assert known(spruce, on(25, 6, note=slip)).bank_c is None


def test_the_batterys_own_column_is_read_and_the_newer_of_both_counts(spruce: Basis) -> None:
    assert known(spruce, on(25, 6, bank_c=-5.0)).bank_c == Reading(-5.0, pytest.approx(70.0 / 60.0))
    both = known(spruce, on(24, 6, note="bank: 50 F"), on(25, 6, bank_c=-5.0)).bank_c
    assert both is not None
    assert both.value == -5.0
    later = known(spruce, on(24, 6, bank_c=-5.0), on(25, 6, note="bank: 50 F")).bank_c
    assert later is not None
    assert later.value == pytest.approx(10.0)


# -- what the log teaches reaches the line -----------------------------------------------------------------------------


def test_dirt_planted_in_the_log_lowers_the_expected_sun_of_the_line(spruce: Basis) -> None:
    """A year of lines of a house under other weather, its array making .94 of what is worked for it, and .846 with a tenth of dirt."""
    owners = read_homestead(demo_path("hollow-spruce"))
    first = date(2025, 7, 1)
    at = datetime(2025, 12, 31, 7, 10)
    found = {}
    for left in (1.0, 0.9):
        log = [one for one in house_log(owners, first, 365, lost_from=first, left=left, old=False) if one.moment.day < at.date()]  # fmt: skip
        with empty_daybook() as book:
            book.append_all(log, datetime(2026, 7, 1))
            seen = remembering(Seen(at, Reading(65.0), Reading(0.7), "bare"), book, spruce, "feet").seen  # fmt: skip
        assert seen.taught.days >= 20
        found[left] = morning_of(spruce, seen, read_heard("clear, gusts 10 mph", at.date()))
    untaught = morning_of(spruce, Seen(at, Reading(65.0), Reading(0.7), "bare"), read_heard("clear, gusts 10 mph", at.date()))  # fmt: skip
    clean, dirty, plain = (one.ahead.sun_wh.mid for one in (found[1.0], found[0.9], untaught))
    assert (
        0.85 < dirty / clean < 0.985
    )  # a month of days known by their season only is drawn towards 1
    assert dirty < clean < plain
    assert found[0.9].upper_m_s == untaught.upper_m_s
    assert found[0.9].ahead.engine.chance >= untaught.ahead.engine.chance - 1e-9
    assert "No daybook teaches this yet" not in " ".join(found[0.9].notes)


def test_a_gust_bias_planted_in_the_log_widens_the_gust_and_never_narrows_it(spruce: Basis) -> None:
    def lines(met_mph: float) -> list[Entry]:
        heard = [on(n + 1, 7, note="heard: broken, gusts 40 mph") for n in range(LEAST_GUSTS)]
        return heard + [on(n + 1, 15, gust_m_s=met_mph * MPH, gust_seen="trees") for n in range(LEAST_GUSTS)]  # fmt: skip

    heard = read_heard("broken, gusts 30 mph", AT.date())
    plain = morning_of(spruce, SEEN, heard)
    more = morning_of(spruce, known(spruce, *lines(50.0)), heard)
    less = morning_of(spruce, known(spruce, *lines(25.0)), heard)
    assert more.upper_m_s == pytest.approx(1.25 * plain.upper_m_s, abs=1.5 * MPH)
    assert more.gust_m_s == pytest.approx(1.25 * 30.0 * MPH)
    assert less.upper_m_s == plain.upper_m_s
