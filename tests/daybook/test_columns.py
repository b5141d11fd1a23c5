from __future__ import annotations

from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from polestead.base.problem import Problem, Wrong
from polestead.daybook.columns import Table, Taken, columns_of, read_table, with_point
from polestead.daybook.entry import Entry, Moment
from polestead.daybook.house import House
from polestead.daybook.words import Known

NOW = datetime(2026, 11, 25, 7, 10)
KNOWN = Known(lambda rod_m: 90.0 * rod_m, chores={"grease": "grease", "oil": "engine oil"})
COLUMNS = ("day = column 1", "charge = column 2, %", "engine = column 3, h", "note = column 4")
TABLE = "day,soc,gen,said\n2026-11-23,78.5,2.5,cold\n2026-11-24,81,,\n"


def chicago(wall: datetime) -> timedelta:
    offset = wall.replace(tzinfo=ZoneInfo("America/Chicago")).utcoffset()
    assert offset is not None
    return offset


def taken(text: str | bytes, *columns: str, house: House | None = None, **how: str) -> Taken:
    raw = text if isinstance(text, bytes) else text.encode("utf-8")
    table = Table(columns_of(columns or COLUMNS, {}), **how)
    return read_table(raw, table, KNOWN, chicago, NOW, house or House(), "table.csv")


def refused(text: str, *columns: str) -> Problem:
    (problem,) = taken(text, *columns).refused
    return problem


def test_columns_by_meaning() -> None:
    result = taken(TABLE)
    assert [(one.moment, one.charge, one.engine_hours, one.note) for one in result.entries] == [
        (Moment(date(2026, 11, 23)), 0.785, 2.5, "cold"),
        (Moment(date(2026, 11, 24)), 0.81, None, ""),
    ]
    assert result.lines == (2, 3)
    assert (result.refused, result.empty_lines) == ((), 0)
    assert result.told[:3] == ("Read as UTF-8.", "Between the cells: comma.", "Line 1 taken as headings.")  # fmt: skip
    assert result.entries[0].whence == "table.csv line 2"


def test_columns_may_stand_in_the_homestead_file_and_the_command_line_counts_over_them() -> None:
    in_file = {"day": "column 1", "charge": "column 9, %"}
    found = columns_of(["charge = column 2, %"], in_file)
    assert (found["day"].number, found["charge"].number) == (1, 2)


@pytest.mark.parametrize("wrong", ["charge", "charj = column 4, %", "charge = 4", "charge = column 0", "charge = column 4, furlong"])  # fmt: skip
def test_a_column_that_is_none_is_told(wrong: str) -> None:
    with pytest.raises(Wrong) as caught:
        columns_of([wrong, "day = nowhere"], {})
    assert len(caught.value.problems) == 2


def test_columns_may_be_named_by_their_heading() -> None:
    result = taken(TABLE, "day = headed DAY", 'charge = headed "soc", %')
    assert [one.charge for one in result.entries] == [0.785, 0.81]
    with pytest.raises(Wrong, match="no column headed so"):
        taken(TABLE, "day = headed Date", "charge = column 2, %")
    with pytest.raises(Wrong, match="two columns headed so"):
        taken("day,soc,soc\n2026-11-23,1,2\n", "day = column 1", "charge = headed soc, %")


@pytest.mark.parametrize(
    ("encoded", "said"),
    [
        (TABLE.encode("utf-8-sig"), "UTF-8"),
        (TABLE.encode("utf-16"), "UTF-16"),
        (TABLE.replace("\n", "\r\n").encode(), "UTF-8"),
        (TABLE.replace("\n", "\r").encode(), "UTF-8"),
    ],
)
def test_encodings_and_line_ends(encoded: bytes, said: str) -> None:
    result = taken(encoded)
    assert [one.charge for one in result.entries] == [0.785, 0.81]
    assert result.told[0] == f"Read as {said}."


def test_another_encoding_is_asked_for_not_guessed() -> None:
    table = TABLE.replace("cold", "früh").encode("cp1252")
    with pytest.raises(Wrong, match="--encoding windows-1252"):
        taken(table)
    assert taken(table, encoding="windows-1252").entries[0].note == "früh"
    with pytest.raises(Wrong, match="no text"):
        taken(b"PK\x03\x04\0\0")


@pytest.mark.parametrize("between", [",", ";", "\t"])
def test_what_stands_between_is_seen_and_told(between: str) -> None:
    assert len(taken(TABLE.replace(",", between)).entries) == 2


def test_where_two_could_stand_between_one_is_asked_for() -> None:
    table = "2026-11-23;78,5\n2026-11-24;81,0\n"
    with pytest.raises(Wrong, match="comma or semicolon"):
        taken(table, "day = column 1", "charge = column 2, %, decimal comma")
    result = taken(
        table, "day = column 1", "charge = column 2, %, decimal comma", between="semicolon"
    )
    assert [one.charge for one in result.entries] == [0.785, 0.81]


@pytest.mark.parametrize(
    ("cell", "told"),
    [
        ('"78,5"', "Then say so behind the column: decimal comma"),
        ('"1,234"', "may be 1234 or 1.234"),
        ("12 V", "is a voltage, a share is wanted"),
        ("full", "cannot be read"),
        ("778", "0 % to 100 %"),
        ("-3", "0 % to 100 %"),
    ],
)
def test_a_figure_that_cannot_be_is_refused_with_its_line(cell: str, told: str) -> None:
    problem = refused(f"day,soc\n2026-11-23,50\n2026-11-24,{cell}\n", "day = column 1", "charge = column 2, %")  # fmt: skip
    assert problem.section == "table.csv line 3"
    assert told in str(problem)


def test_a_bare_number_without_a_unit_is_refused_and_one_with_its_own_is_not() -> None:
    result = taken("2026-11-23,50\n2026-11-24,51 %\n", "day = column 1", "charge = column 2")
    assert [one.charge for one in result.entries] == [0.51]
    assert "Its unit is not known" in str(result.refused[0])


def test_a_decimal_comma_that_is_named_is_read() -> None:
    assert with_point("1.234,5 kWh", decimal_comma=True) == "1234.5 kWh"
    assert with_point("12,5", decimal_comma=True) == "12.5"
    assert with_point("1,234,567.8", decimal_comma=False) == "1234567.8"
    with pytest.raises(ValueError, match="write one of them"):
        with_point("78.5", decimal_comma=True)


@pytest.mark.parametrize(
    ("cell", "order", "day"),
    [
        ("2026-11-23", "", date(2026, 11, 23)),
        ("2026/11/23", "", date(2026, 11, 23)),
        ("23.11.2026", "", date(2026, 11, 23)),  # only one order can be meant
        ("11/23/2026", "", date(2026, 11, 23)),
        ("04/04/2026", "", date(2026, 4, 4)),
        ("03/04/2026", ", day first", date(2026, 4, 3)),
        ("03/04/2026", ", month first", date(2026, 3, 4)),
    ],
)
def test_dates_in_a_known_or_a_named_order(cell: str, order: str, day: date) -> None:
    (entry,) = taken(f"{cell};50\n", f"day = column 1{order}", "charge = column 2, %").entries
    assert entry.moment == Moment(day)


@pytest.mark.parametrize(
    ("cell", "order", "told"),
    [
        ("03/04/2026", "", "may be 3 April 2026 or 4 March 2026"),
        ("23/11/2026", ", month first", "no day of the calendar in that order"),
        ("2026-02-30", "", "no day of the calendar"),
        ("3/4/26", "", "four figures"),
        ("03/04/26", ", day first", "no year of four figures"),
        ("yesterday", "", "No date"),
        ("2026-11-23 07:10", "", "Name the column  moment"),
        ("", "", "needs its day"),
        ("2027-01-01", "", "to today"),
    ],
)
def test_a_date_that_may_be_two_or_is_none_is_refused(cell: str, order: str, told: str) -> None:
    assert told in str(refused(f"{cell};50\n", f"day = column 1{order}", "charge = column 2, %"))


@pytest.mark.parametrize(
    ("cell", "moment"),
    [
        ("2026-11-23T07:10:00-05:00", Moment(date(2026, 11, 23), time(7, 10), -300)),
        ("2026-11-23 07:10", Moment(date(2026, 11, 23), time(7, 10), -360)),
        ("2026-11-23", Moment(date(2026, 11, 23))),
    ],
)
def test_day_and_time_in_one_column(cell: str, moment: Moment) -> None:
    (entry,) = taken(f"{cell};50\n", "moment = column 1", "charge = column 2, %").entries
    assert entry.moment == moment


def test_clock_changes_are_kept_as_written_and_told_with_their_lines() -> None:
    table = "2026-11-01,1:30,50\n2026-11-01,1:30,49\n2026-03-08,2:30,51\n2026-11-02,25:00,51\n"
    result = taken(table, "day = column 1", "time = column 2", "charge = column 3, %")
    assert [one.moment.offset_min for one in result.entries] == [None, None, None]
    said = " ".join(result.told)
    assert "came twice when the clocks went back, kept as written: lines 1, 2." in said
    assert "never were when the clocks went on, kept as written: lines 3." in said
    assert "No time: 25:00" in str(result.refused[0])


def test_cells_that_say_nothing_are_counted_and_empty_lines_too() -> None:
    result = taken("2026-11-23,-\n2026-11-24,n/a\n\n,,\n2026-11-25,50\n", "day = column 1", "charge = column 2, %")  # fmt: skip
    assert len(result.entries) == 1
    assert result.empty_lines == 2
    assert "Cells taken as not looked at: - (1), n/a (1)." in result.told


def test_snow_chores_rod_tank_and_meter() -> None:
    columns = ("day = column 1", "snow = column 2, %", "done = column 3", "rod = column 4, mm", "tank = column 5, %", "meter = column 6, h")  # fmt: skip
    result = taken("2026-11-23;dusted;grease + oil;500;40;1250.5\n2026-11-24;30;;;;\n2026-11-24;;sweep;;;\n", *columns)  # fmt: skip
    first, second = result.entries
    assert (first.snow, first.done, first.tilt_deg, first.tank_share, first.engine_meter_hours) == ("dusted", ("grease", "engine oil"), 45.0, 0.4, 1250.5)  # fmt: skip
    assert second.snow_share == 0.3
    assert "No chore known here: sweep" in str(result.refused[0])


def test_the_house_bounds_what_is_taken() -> None:
    result = taken("2026-11-23,80\n", "day = column 1", "tilt = column 2", house=House(steepest_tilt_deg=70.0))  # fmt: skip
    assert result.entries == ()
    assert "0 deg to 75 deg" in str(result.refused[0])


@pytest.mark.parametrize(
    ("text", "columns", "said"),
    [
        (TABLE, ("charge = column 2, %",), "no column for the day"),
        (TABLE, ("day = column 1",), "no column with anything seen"),
        (TABLE, ("day = column 1", "charge = column 9, %"), "columns 1 to 4"),
        (TABLE, ("day = column 1", "charge = column 2, kWh"), "Name the unit its numbers are in"),
        (TABLE, ("day = column 1, h", "charge = column 2, %"), "no unit"),
        (TABLE, ("day = column 1", "charge = column 2, %, day first"), "for day or moment only"),
        ("", COLUMNS, "nothing"),
        ('day,soc\n2026-11-23,"50\n', COLUMNS[:2], "no CSV"),
        ("2026-11-23,1\n" * 20_001, COLUMNS[:2], "at most 20,000"),
    ],
)
def test_what_is_no_table_is_told(text: str, columns: tuple[str, ...], said: str) -> None:
    with pytest.raises(Wrong, match=said):
        taken(text, *columns)


def test_an_entry_holds_the_cells_it_was_read_from() -> None:
    assert taken(TABLE).entries[0] == Entry(
        Moment(date(2026, 11, 23)), charge=0.785, engine_hours=2.5, note="cold",
        written="2026-11-23; 78.5; 2.5; cold", whence="table.csv line 2",
    )  # fmt: skip
