from __future__ import annotations

from contextlib import suppress
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.homestead.demos import demo_path
from polestead.homestead.ledger import COLUMNS, PARTS, LedgerRow, ledger_rows, ledger_text, rows_in
from polestead.homestead.read import check_text, read_homestead

TEXT = demo_path("hollow-spruce").read_text(encoding="utf-8")
HEAD = "name,part,planned,quoted,paid,on,hours,by,rate,note\n"

words = st.text(
    st.characters(codec="utf-8", categories=("L", "N", "P", "S", "Zs")), min_size=1, max_size=40
).map(lambda text: "".join(text.split()))
money = st.none() | st.floats(-1e8, 1e8, allow_nan=False)
hours = st.none() | st.floats(0.0, 1e5)


@st.composite
def ledger_lines(draw):
    """What reading could have given: with money or hours, a rate only beside hours."""
    worked = draw(hours)
    planned, quoted, paid = draw(money), draw(money), draw(money)
    if worked is None and planned is quoted is paid is None:
        planned = 1.0
    own = draw(st.none() | words)
    return LedgerRow(
        name=draw(words.filter(bool)),
        part=draw(st.sampled_from(["", *PARTS])),
        planned=planned,
        quoted=quoted,
        paid=paid,
        on=draw(st.none() | st.dates(date(1980, 1, 1), date(2100, 12, 31))),
        hours=worked,
        by=draw(st.just("") | words),
        rate=None if worked is None else draw(st.none() | st.floats(0.0, 1e6)),
        note=draw(st.just("") | words),
        beside=(("Shelf no.", own or ""), ("Shop, town", "a, b; c")),
    )


@given(st.lists(ledger_lines(), min_size=1, max_size=8))
def test_a_ledger_written_reads_back_to_the_same(lines) -> None:
    assert list(ledger_rows(ledger_text(lines), {})) == lines


@given(st.lists(ledger_lines(), min_size=1, max_size=4), st.permutations(COLUMNS))
def test_under_the_owners_own_headings_too(lines, heads) -> None:
    own = {column: f"His {head}" for column, head in zip(COLUMNS, heads, strict=True)}
    assert list(ledger_rows(ledger_text(lines, own), own)) == lines


def test_semicolon_tab_mark_and_windows_lines_are_read() -> None:
    want = (LedgerRow("pole", paid=1180.5, note="a, b"),)
    assert ledger_rows("name;paid;note\r\npole;1,180.50;a, b\r\n\r\n", {}) == want
    assert ledger_rows("name\tpaid\tnote\npole\t$1,180.50\ta, b\n", {}) == want


def test_columns_stand_in_any_order_and_strange_ones_are_kept() -> None:
    (row,) = ledger_rows("Cost,Shop,Item\n−40 USD,the yard,old rails sold\n", {"name": "Item", "paid": "cost"})  # fmt: skip
    assert (row.name, row.paid, row.beside) == ("old rails sold", -40.0, (("Shop", "the yard"),))


@pytest.mark.parametrize(
    ("line", "column", "words"),
    [
        ("pole,,\"1180,50\",,,,,,,", "planned", "decimal comma"),
        ("pole,,1.180,,,,,,,", "planned", "Three places"),
        ("pole,,12 h,,,,,,,", "planned", "go under hours"),
        ("pole,,about 900,,,,,,,", "planned", "one plain number"),
        ("pole,,1e9,,,,,,,", "planned", "one plain number"),
        ("pole,,,,200000000,,,,,", "paid", "Check the number"),
        ("pole,,,,,,$40,us,,", "hours", "That is money"),
        ("pole,,,,,,6:30,us,,", "hours", "parts of one: 6.5"),
        ("pole,,900,,,5/1/2026,,,,", "on", "year first"),
        ("pole,,900,,,2026-02-30,,,,", "on", "year first"),
        ("pole,,900,,,1926-02-03,,,,", "on", "1980"),
        ("pole,pole and fram,900,,,,,,,", "part", "Did you mean pole and frame"),
        ("pole,spaceship,900,,,,,,,", "part", "Leave it empty"),
        (",,900,,,,,,,", "name", "Say what it is"),
        ("pole,,,,,,,,,", "", "neither money nor hours"),
        ("pole,,900,,,,,us,30,", "rate", "Add the hours"),
        ("pole,,,,,,8,us,-30,", "rate", "no minus"),
        ("pole,,1,180,,,,,,,note,and,more", "", "in quotes"),
        (f"{'p' * 61},,900,,,,,,,", "name", "shorter"),
        ('pole,,900,,,,,,,"unclosed', "", "stands in quotes"),
    ],
)  # fmt: skip
def test_each_fault_names_line_column_and_what_to_do(line, column, words) -> None:
    with pytest.raises(Wrong) as wrong:
        ledger_rows(f"{HEAD}clamps,,10,,,,,,,\n{line}\n", {})
    found = [one for one in wrong.value.problems if words in str(one)]
    assert [one.key for one in found] == [column]
    assert "line 3" in found[0].section


def test_all_faults_are_told_at_once() -> None:
    with pytest.raises(Wrong) as wrong:
        ledger_rows(f'{HEAD}pole,x,abc,,,1.5.26,,,,\n,,1,,,,,,,\nrail,,,,"1,5",,,,,\n', {})
    assert [(one.section[-6:], one.key) for one in wrong.value.problems] == [
        ("line 2", "planned"), ("line 2", "on"), ("line 2", "part"), ("line 3", "name"), ("line 4", "paid"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "columns", "words"),
    [
        ("", {}, "nothing"),
        ("item,cost\npole,9\n", {}, "a column name"),
        ("name,cost\npole,9\n", {}, "planned, quoted, paid or hours"),
        ("name,paid,\npole,9,1\n", {}, "without a heading"),
        ("name,paid,paid\npole,9,1\n", {}, "stands twice"),
        ("name,paid\npole,9\n", {"note": "Remark"}, "Write its heading as it stands"),
    ],
)
def test_headings_that_do_not_serve_are_told(text, columns, words) -> None:
    with pytest.raises(Wrong, match=words):
        ledger_rows(text, columns)


@given(st.text(max_size=300))
def test_no_text_breaks_it(text) -> None:
    with suppress(Wrong):
        assert all(row.name for row in ledger_rows(text, {}))


def file_with(folder, prices: str, ledger: bytes | None):
    """The demo with more under its prices, and a ledger beside it."""
    text = TEXT.replace("[prices.wire]", f"{prices}\n[prices.wire]", 1)
    path = folder / "mine.toml"
    path.write_text(text, encoding="utf-8")
    if ledger is not None:
        (folder / "ledger.csv").write_bytes(ledger)
    return path


def test_the_ledger_beside_the_file_is_read_with_it(tmp_path) -> None:
    path = file_with(tmp_path, 'ledger = "ledger.csv"', b"\xef\xbb\xbfname,paid\nrope,40\n")
    owners = read_homestead(path)
    assert owners.ledger == (LedgerRow("rope", paid=40.0),)
    every = rows_in(owners.homestead.prices, owners.rows, owners.ledger)
    assert [row.name for row in every][-1] == "rope"
    assert len(every) == len(owners.homestead.prices.lines) + 1


def test_faults_of_file_and_ledger_are_told_together(tmp_path) -> None:
    path = file_with(tmp_path, 'ledger = "ledger.csv"\nfuel_rise = "90 %"', b"name,paid\nrope,x\n")
    with pytest.raises(Wrong) as wrong:
        read_homestead(path)
    assert [one.key for one in wrong.value.problems] == ["fuel_rise", "paid"]


@pytest.mark.parametrize(
    ("ledger", "words"), [(None, "cannot be opened"), (b"name,paid\n\xff,1\n", "not UTF-8"), (b"n" * 1_000_001, "more than 1,000,000")]
)  # fmt: skip
def test_a_ledger_that_cannot_be_read_is_told(tmp_path, ledger, words) -> None:
    with pytest.raises(Wrong, match=words):
        read_homestead(file_with(tmp_path, 'ledger = "ledger.csv"', ledger))


def test_said_is_quoted_and_built_is_paid() -> None:
    text = TEXT.replace(
        "modules = 1180.0",
        'modules = { planned = 1180, said = 1150, asked_of = "the yard", on = 2026-05-04 }\n'
        "rope = { planned = 40, built = 44.5, on = 2026-05-09 }\n"
        'odds = { assumed = 60, why = "a guess" }',
    )
    homestead, rows = check_text(text)
    found = {row.name: row for row in rows_in(homestead.prices, rows, ())}
    assert (found["modules"].planned, found["modules"].quoted, found["modules"].stage) == (1180.0, 1150.0, "quoted")  # fmt: skip
    assert (found["rope"].planned, found["rope"].paid, found["rope"].on) == (40.0, 44.5, date(2026, 5, 9))  # fmt: skip
    assert (found["odds"].planned, found["odds"].mark) == (60.0, "~")
    assert found["controller"].stage == "planned"


ENTRY = '\n[[prices.entry]]\nname = "welding"\n'


def test_an_entry_keeps_stage_hours_and_whose() -> None:
    text = TEXT + ENTRY + 'part = "pole and frame"\npaid = 90.0\non = 2026-05-01\nhours = 12.0\nby = "us"\nrate = 20.0\n'  # fmt: skip
    homestead, rows = check_text(text)
    assert rows_in(homestead.prices, rows, ())[-1] == LedgerRow(
        "welding", "pole and frame", paid=90.0, on=date(2026, 5, 1), hours=12.0, by="us", rate=20.0
    )


@pytest.mark.parametrize(
    ("text", "key", "words"),
    [
        (TEXT + ENTRY, "", "neither money nor hours"),
        (TEXT + ENTRY + "paid = 9.0\nrate = 20.0\n", "rate", "Add the hours"),
        (TEXT + ENTRY + 'paid = 9.0\npart = "hull"\n', "part", "letter for letter"),
        (TEXT + ENTRY + 'paid = 9.0\non = "1 May"\n', "on", "a date without quotes"),
        (TEXT.replace("[prices.wire]", 'ledger_columns = { name = "Item" }\n[prices.wire]', 1), "ledger_columns", "Name the file"),
        (TEXT.replace("[prices.wire]", 'ledger = "l.csv"\nledger_columns = { Item = "name" }\n[prices.wire]', 1), "Item", "name, part, planned, quoted, paid"),
        (TEXT.replace("[prices.wire]", 'ledger = "ledger.xlsx"\n[prices.wire]', 1), "ledger", "Save the sheet as CSV"),
        (TEXT.replace("[prices.wire]", "bought_lines = { freight = 9.0 }\n[prices.wire]", 1), "bought_lines", "Add its quote"),
        (TEXT.replace("[prices.wire]", 'bought_mount = 9.0\nbought_replaces = ["mast"]\n[prices.wire]', 1), "bought_replaces", "letter for letter"),
        (TEXT.replace("[prices.wire]", "discount = 0.04\n[prices.wire]", 1), "discount", "share with its unit"),
    ],
)  # fmt: skip
def test_what_does_not_fit_in_the_prices_is_told(text, key, words) -> None:
    with pytest.raises(Wrong) as wrong:
        check_text(text)
    assert [one.key for one in wrong.value.problems if words in str(one)] == [key]


def test_a_figure_in_another_currency_is_refused_and_the_own_sign_is_not() -> None:
    assert [row.paid for row in ledger_rows("name,paid\na,$20\nb,USD 30\nc,40\n", {}, currency="USD")] == [20.0, 30.0, 40.0]  # fmt: skip
    assert ledger_rows("name,paid\na,€20\n", {}, currency="EUR")[0].paid == 20.0
    with pytest.raises(Wrong, match="day's rate") as found:
        ledger_rows("name,paid,rate,hours\na,€20,,\nb,20 CAD,,\nc,,£30,2\n", {}, currency="USD")
    assert len(found.value.problems) == 3


def test_a_byte_order_mark_and_a_separator_line_are_no_heading() -> None:
    (row,) = ledger_rows("\ufeffsep=;\r\nname;paid\r\npole;960\r\n", {})
    assert (row.name, row.paid) == ("pole", 960.0)


@pytest.mark.parametrize(("cell", "do"), [("(42.50)", "with a minus"), ("1 180.00", "space between thousands"), ("1180,50", "decimal comma")])  # fmt: skip
def test_a_figure_written_another_way_says_how_to_write_it(cell, do) -> None:
    with pytest.raises(Wrong, match=do):
        ledger_rows(f"name;paid\npole;{cell}\n", {})
