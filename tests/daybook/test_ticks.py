from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.build.cards.card import CardStep
from polestead.daybook.poured import Poured, read_poured
from polestead.daybook.ticking import ticked
from polestead.daybook.ticks import BuiltTick, Cards, GateTick, Ticks, cards_of, plain, read_ticks
from polestead.sheets.log import ticks_lines
from tests.sheets.deck import DECK

TODAY = date(2026, 7, 1)
CARDS = Cards(
    {"hole": 5, "lift": 2, "load modules": 6},
    {"footing": ("hole", 3), "bare steel": ("lift", 1)},
    {"hole": frozenset({"footing.depth", "place.soil"}), "lift": frozenset(), "load modules": frozenset({"array.gap"})},
)  # fmt: skip


def test_the_line_as_the_phone_writes_it() -> None:
    line = "ticks: hole 1-4, lift 1, load modules 1 3-6, gate footing 12 Jun RJ, gate bare steel not needed: no office here, built hole/footing.depth = 8 ft 7 in"
    ticks = read_ticks(line, CARDS, TODAY)
    assert ticks == Ticks(
        (("hole", (1, 2, 3, 4)), ("lift", (1,)), ("load modules", (1, 3, 4, 5, 6))),
        (GateTick("footing", "12 Jun", "RJ"), GateTick("bare steel", why="no office here")),
        (BuiltTick("hole", "footing.depth", "8 ft 7 in"),),
    )
    assert "ticks: " + plain(ticks) == line


RULED = Cards({"pole-side": 10, "hole": 5}, {}, {}, rules={"pole-side": frozenset(range(1, 9))})


@pytest.mark.parametrize(
    ("line", "taken", "rules"),
    [
        ("pole-side 1-8", "none", ("pole-side 1-8",)),
        ("hole 1, pole-side 1 3-4 8-10", "hole 1, pole-side 9-10", ("pole-side 1 3-4 8",)),
        ("pole-side 9", "pole-side 9", ()),
    ],
)
def test_rules_ticked_by_an_older_phone_file_are_told_and_not_counted(line: str, taken: str, rules: tuple[str, ...]) -> None:  # fmt: skip
    ticks = read_ticks(f"ticks: {line}", RULED, TODAY)
    assert (plain(ticks), ticks.rules) == (taken, rules)
    said = " ".join(ticks_lines(ticks))
    assert all(f"{one}: rules that hold for ever" in said for one in rules)
    with pytest.raises(Wrong):
        read_ticks("pole-side 11", RULED, TODAY)
    with pytest.raises(Wrong):
        ticked(ticks, RULED, "pole-side", 8, done=True)


def test_nothing_ticked() -> None:
    assert read_ticks("ticks: none", CARDS, TODAY) == Ticks()
    assert plain(Ticks()) == "none"


def test_what_can_be_ticked_comes_from_the_cards() -> None:
    cards = cards_of(DECK)
    assert cards.steps == {"hole": 5, "lift": 2}
    assert cards.gates == {"footing": ("hole", 3)}
    assert cards.built["hole"] == {"footing.depth"}
    assert cards_of(
        [replace(DECK[0], steps=(CardStep("Dig."), CardStep("Never climb in.", rule=True)))]
    ).rules == {DECK[0].act: {2}}


@pytest.mark.parametrize(
    ("line", "place", "said"),
    [
        ("ticks: hole 1-4, pond 1, gate footing 12 Jun RJ", "part 2, sign 18", "No card of that name"),
        ("ticks: hole 1-9, gate footing 12 Jun RJ", "part 1, sign 8", "steps 1 to 5"),
        ("hole 3-1", "part 1, sign 1", "steps 1 to 5"),
        ("hole 2-2", "part 1, sign 1", "steps 1 to 5"),
        ("hole 1 2", "part 1, sign 1", "not in order"),
        ("hole 3 1", "part 1, sign 1", "not in order"),
        ("hole one", "part 1, sign 1", "is no step"),
        ("hole", "part 1, sign 1", "No card of that name"),
        ("hole 1,, lift 1", "part 2, sign 8", "No card of that name"),
        ("gate footing RJ", "part 1, sign 1", "a day and initials"),
        ("gate garden 12 Jun RJ", "part 1, sign 1", "No gate of that name"),
        ("built hole/footing.width = 3 ft", "part 1, sign 1", "No such figure as built"),
        ("built lift/footing.depth = 3 ft", "part 1, sign 1", "No such figure as built"),
        ("ticks:", "part 1, sign 7", "No card of that name"),
        ("hole 1, hole 2", "the line", "each once"),
        ("poured 2026-05-15, poured 2026-05-16", "the line", "each once"),
        ("hole 1, poured 2026-07-02", "part 2, sign 9, the day of the pour", "a day up to today, 2026-07-01"),
        ("poured 15 May", "part 1, sign 1, the day of the pour", "Write the year first."),
        ("poured 2026-02-30", "part 1, sign 1, the day of the pour", "a day as 2026-05-15"),
        ("poured 2026-06-15: 12 C; warm", "part 1, sign 1, day 2", "with its unit"),
        ("poured 2026-06-29: 12 C; ?; 9 C", "part 1, sign 1, the days since", "one for each 24 hours that are over"),
        ("hole 4", "the line", "before it is signed"),
        ("x" * 8001, "the line", "up to 8000"),
    ],
)  # fmt: skip
def test_a_malformed_line_is_refused_with_its_place(line: str, place: str, said: str) -> None:
    with pytest.raises(Wrong) as caught:
        read_ticks(line, CARDS, TODAY)
    (problem,) = caught.value.problems
    assert problem.key == place
    assert said in str(problem)


def test_every_part_that_cannot_be_read_is_told() -> None:
    with pytest.raises(Wrong) as caught:
        read_ticks("ticks: pond 1, hole 9, gate garden 1 Jun RJ", CARDS, TODAY)
    assert [problem.key.split(",")[0] for problem in caught.value.problems] == ["part 1", "part 2", "part 3"]  # fmt: skip


WORDS = st.text("abcXYZ0 12.-", min_size=1, max_size=12).map(lambda text: " ".join(text.split())).filter(lambda text: text and not text.startswith("not needed"))  # fmt: skip


@settings(deadline=None)
@given(
    st.fixed_dictionaries({}, optional={act: st.sets(st.integers(1, count), min_size=1) for act, count in CARDS.steps.items()}),
    WORDS, st.text("ABC.", min_size=1, max_size=4),
    st.none() | st.builds(lambda on, days: read_poured(str(on), "; ".join(days), TODAY), st.dates(date(1970, 1, 1), date(2026, 6, 1)), st.lists(st.sampled_from(["12 C", "-3.5 C", "54 F", "?"]), max_size=5)),
    st.lists(st.sampled_from([("hole", "footing.depth"), ("hole", "place.soil"), ("load modules", "array.gap")]), unique=True), WORDS,
)  # fmt: skip
def test_any_ticks_come_back_from_their_line(steps: dict[str, set[int]], on: str, by: str, poured: Poured | None, built: list[tuple[str, str]], value: str) -> None:  # fmt: skip
    ticks = Ticks(
        tuple((act, tuple(sorted(done))) for act, done in steps.items()),
        (GateTick("footing", on, by), GateTick("bare steel", why=value)),
        tuple(BuiltTick(act, key, value) for act, key in built),
        poured,
    )
    assert read_ticks(plain(ticks), CARDS, TODAY) == ticks
