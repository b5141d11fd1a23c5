"""Whose clause is printed: the NEC's under the NEC alone, one number in one place, and what to ask elsewhere."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from functools import cache

import numpy as np
import pytest

from polestead.answer.stands import wires_of
from polestead.answer.wires import drawn_from
from polestead.base.source import Source
from polestead.sheets.one_line import one_line_words
from polestead.sheets.wires.guards import guards_lines, labels_lines
from polestead.sheets.wires.tilt_drive import tilt_drive_lines
from polestead.sheets.wires.trench import hinge_cable_lines, trench_lines
from polestead.wiring.basis import asks_of, basis_of
from polestead.wiring.by_code import borrowed
from polestead.wiring.guards.inside import FROM_A, FROM_V, inside_rule
from polestead.wiring.guards.labels import Engraved, labels_of
from polestead.wiring.guards.rules import shutdown_rule
from polestead.wiring.guards.shutdown import shutdown_of
from polestead.wiring.result import WiringResult
from polestead.wiring.tilt_drive.result import TiltDrive
from polestead.wiring.tilt_drive.tilt_drive import tilt_drive_of
from polestead.wiring.tilt_drive.wire import fuse_ratings_a
from polestead.wiring.tilt_drive.years import SupplyYears
from tests.wiring.test_one_line import changed

OURS = ("run", "breaker", "trench", "conduit", "hinge cable", "earth wire", "own line")
CLAUSES = re.compile(r"\bNEC\b|\b(?:690|250|300|352|310|240|110|338|400)\.\d+")
DEMOS = ("hollow-spruce", "cinder-mesa", "slieve-moss")


@cache
def worked(demo: str, code: str) -> tuple[WiringResult, str]:
    """What is worked, and all that is printed of it, in one line."""
    h = changed(demo, place={"electrical_code": code})
    wires = wires_of(h)
    assert wires.trench is not None
    assert wires.cord is not None
    lines = [
        *guards_lines(wires.guards), *labels_lines(wires.guards), *trench_lines(wires.trench, "feet"), *hinge_cable_lines(wires.cord, "feet"),
        one_line_words(drawn_from(h, wires), "feet"),
    ]  # fmt: skip
    return wires, " ".join("\n".join(lines).split())


def sources(thing: object) -> Iterator[Source]:
    """Every source within."""
    if isinstance(thing, Source):
        yield thing
    elif is_dataclass(thing) and not isinstance(thing, type):
        for field in fields(thing):
            yield from sources(getattr(thing, field.name))
    elif isinstance(thing, tuple | list):
        for one in thing:
            yield from sources(one)


def of_ours(wires: WiringResult) -> list[object]:
    return [wires.guards, wires.trench, wires.cord, [c for c in wires.checks if c.part in OURS]]


@pytest.mark.parametrize("demo", DEMOS)
@pytest.mark.parametrize("code", ["Canada", "IEC"])
def test_no_clause_of_the_nec_stands_under_another_code_unless_told_as_borrowed(demo, code) -> None:
    wires, printed = worked(demo, code)
    told = {str(one) for one in sources(of_ours(wires))}
    assert {one for one in told if CLAUSES.search(one) and "borrowed" not in one} == set()
    for found in CLAUSES.finditer(printed):
        assert "borrowed" in printed[max(0, found.start() - 60) : found.start()], printed[found.start() - 60 : found.end() + 40]  # fmt: skip


def test_under_the_nec_its_clauses_do_stand() -> None:
    wires, printed = worked("hollow-spruce", "NEC")
    assert sum(one.work == "NEC" for one in sources(of_ours(wires))) > 30
    assert len(CLAUSES.findall(printed)) > 30
    assert "borrowed" not in printed


def test_a_borrowed_figure_says_so_and_what_is_not_the_nec_s_stays() -> None:
    nec, own = Source("NEC", "Ch. 9 Table 4", "seen-copy"), Source("EN 60204-1", "ten diameters")
    assert borrowed(nec, "NEC") is nec
    assert str(borrowed(nec, "IEC")).startswith("figures borrowed from NEC")
    assert borrowed(own, "IEC") is own


# --- rapid shutdown: one number in one place


def engraved(code: str) -> str:
    one = Engraved(
        code, 190.8, 35.0, 131.6, 26.8, 45.0, 48.0, 57.6, None, 80.0, True, "missing", False
    )  # type: ignore[arg-type]
    return " ".join(line for label in labels_of(one) for line in label.lines)


@pytest.mark.parametrize(("code", "left", "seconds"), [("NEC", "30 V", 30), ("Canada", "30 V and 240 VA", 10)])  # fmt: skip
def test_rule_label_basis_and_question_name_the_same_volts_and_seconds(code, left, seconds) -> None:
    found = shutdown_of(code)
    assert found is not None
    assert (found.left, found.within_s) == (left, seconds)
    rule = shutdown_rule(code, 3.0)
    assert f"under {left} on the run within {seconds} s" in rule.ask
    assert f"UNDER {left.upper()} WITHIN {seconds} SECONDS" in engraved(code)
    assert f"under {left} within {seconds} s" in basis_of(code).on("shut-off for firemen").says
    place = changed("hollow-spruce", place={"electrical_code": code}).place
    traps = " ".join(ask.trap for ask in asks_of(place, 190.0, 3.0))
    assert code == "NEC" or f"{left} within {seconds} s" in traps
    other = 40 - seconds
    assert f"within {other} s" not in f"{rule.words} {rule.ask} {traps} {basis_of(code).on('shut-off for firemen').says}"  # fmt: skip
    assert f"{other} SECONDS" not in engraved(code)


def test_iec_has_no_such_rule_and_no_such_label() -> None:
    assert shutdown_of("IEC") is None
    assert "SECONDS" not in engraved("IEC")
    assert shutdown_rule("IEC", 3.0).ask != ""


@pytest.mark.parametrize(
    ("inside", "away", "outcome"),
    [(0.0, 60.0, "ask"), (1.5, 3.0, "ask"), (1.6, 3.0, "missing"), (1.0, 3.1, "missing"), (3.0, 60.0, "missing")],
)  # fmt: skip
def test_canada_counts_metres_in_the_house_and_from_the_array_and_borrows_no_exemption(inside, away, outcome) -> None:  # fmt: skip
    rule = shutdown_rule("Canada", inside, away)
    assert rule.outcome == outcome
    assert "2023" not in rule.words + rule.ask
    assert "shed" not in rule.words
    assert "edition" in rule.words


# --- the wire inside the house


@pytest.mark.parametrize(
    ("code", "volts", "amps", "inside", "method", "outcome"),
    [
        ("NEC", 190.0, 35.0, 0.0, "direct burial", "does not reach"),
        ("NEC", 190.0, 35.0, 0.1, "direct burial", "missing"),
        ("NEC", 190.0, 35.0, 3.0, "PVC conduit", "missing"),
        ("NEC", 190.0, 35.0, 3.0, "metal conduit", "met"),
        ("NEC", 30.0, 8.0, 3.0, "direct burial", "does not reach"),
        ("NEC", 30.1, 8.0, 3.0, "direct burial", "missing"),
        ("NEC", 30.0, 8.1, 3.0, "direct burial", "missing"),
        ("Canada", 190.0, 35.0, 3.0, "metal conduit", "ask"),
        ("IEC", 190.0, 35.0, 3.0, "direct burial", "ask"),
    ],
)
def test_inside_the_house_it_lies_in_metal(code, volts, amps, inside, method, outcome) -> None:
    rule = inside_rule(code, volts, amps, inside, method)
    assert rule.outcome == outcome
    assert ("USE-2" in rule.words) is (code == "NEC" and inside > 0.0)
    assert rule.ask or outcome == "does not reach"


def test_the_basis_names_the_same_volts_and_amperes() -> None:
    assert f"over {FROM_V:g} V or {FROM_A:g} A" in basis_of("NEC").on("wire in the house").says
    for code in ("NEC", "Canada", "IEC"):
        assert basis_of(code).on("wire in the house").source.status == "memory"


@pytest.mark.parametrize(("code", "box"), [("NEC", True), ("Canada", True), ("IEC", False)])
def test_the_change_over_box_is_in_the_list_the_wall_and_the_pieces(code, box) -> None:
    wires, printed = worked("hollow-spruce", code)
    assert wires.trench is not None
    assert ("wall box" in {g.key for g in wires.guards.guards}) is box
    assert ("change-over box" in {i.what for i in wires.trench.wall}) is box
    assert ("change-over box" in {i.name for i in wires.trench.bought}) is box
    order = [item.what for item in wires.trench.wall]
    assert order.index("way inside") < order.index("PHOTOGRAPH of the open wall") < order.index("SIGN-OFF")  # fmt: skip
    assert "In the wall before it closes" in printed
    assert any(rule.name == "wire in the house" for rule in wires.guards.rules)


def test_a_run_that_stays_outside_asks_nothing_of_the_wall() -> None:
    h = changed("hollow-spruce", run={"in_house_m": 0.0})
    trench = wires_of(h).trench
    assert trench is not None
    assert trench.wall == ()
    assert not any("inside" in one.name or "change-over" in one.name for one in trench.bought)


def test_the_signal_wire_of_a_shutdown_is_in_the_trench_before_it_closes() -> None:
    wires, _ = worked("hollow-spruce", "NEC")
    assert wires.trench is not None
    items = [item.what for item in wires.trench.items]
    assert items.index("signal wire of the rapid shutdown") < items.index("SIGN-OFF")
    european, _ = worked("hollow-spruce", "IEC")
    assert european.trench is not None
    assert "signal wire of the rapid shutdown" not in [item.what for item in european.trench.items]


# --- the tilt drive's wire and fuse


def light_and_mild() -> SupplyYears:
    bright = np.where((np.arange(8760) % 24 >= 10) & (np.arange(8760) % 24 < 14), 0.3, 0.0)
    return SupplyYears(bright[None].astype(np.float32), np.full((1, 8760), 10.0, np.float32), 7)


@cache
def drive_under(demo: str, code: str) -> tuple[TiltDrive, str]:
    file = changed(demo, place={"electrical_code": code})
    told = tilt_drive_of(file.drive, light_and_mild(), code)  # type: ignore[arg-type]
    assert told is not None
    return told, " ".join("\n".join(tilt_drive_lines(told, "feet")).split())


@pytest.mark.parametrize("code", ["Canada", "IEC"])
def test_the_drive_s_wire_and_fuse_tell_whose_figures_they_borrow(code) -> None:
    told, printed = drive_under("hollow-spruce", code)
    named = {str(one) for one in sources([told.checks, told.parts, told.workings])}
    assert {one for one in named if CLAUSES.search(one) and "borrowed" not in one} == set()
    assert {one for one in named if one.startswith("UL ")} == set()
    assert sum("borrowed" in one and "ask" in one for one in named) >= 2
    for found in CLAUSES.finditer(printed):
        assert "borrowed" in printed[max(0, found.start() - 90) : found.end() + 40]
    assert "Article 720" not in printed
    assert "borrowed" not in drive_under("hollow-spruce", "NEC")[1]


def test_under_iec_the_drive_s_wire_and_fuse_go_by_its_own_tables() -> None:
    told, _ = drive_under("slieve-moss", "IEC")
    checks = {check.name: check for check in told.checks}
    # 6 mm2, B.52.2 B2 38 A x .79 in 45 C = 30.0 A; 1.45 x 30.0 / 1.6 = 27.2: 25 A gG.  1.25 x 11 = 13.75: 16 A, no rating of America.
    assert checks["current of the motor"].capacity == pytest.approx(30.02)
    assert checks["fuse protects the wire"].capacity == 25.0
    assert told.wire.fuse_a == 16.0
    assert told.parts[0].rating.startswith("16 A")
    assert set(fuse_ratings_a("IEC")) >= {2.0, 16.0, 32.0, 63.0}
    assert 15.0 not in fuse_ratings_a("IEC")
    assert fuse_ratings_a("Canada") == fuse_ratings_a("NEC")
