"""Every rung of every working of every demo whose formula is arithmetic is worked out again from what it prints."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from itertools import chain

import pytest

from polestead.base.check import Check
from polestead.base.show import in_style, significant
from polestead.base.source import COMMON_PRACTICE
from polestead.base.working import Step
from polestead.homestead.demos import demo_names
from polestead.sheets.working import in_trade
from polestead.sheets.workings import of_all_wires, of_answer
from tests.answers import wired, worked

KNOWN = {
    "sqrt": math.sqrt, "pi": math.pi, "exp": math.exp, "min": min, "max": max, "g": 9.80665, "e": math.e,
    "sin": lambda degrees: math.sin(math.radians(degrees)), "cos": lambda degrees: math.cos(math.radians(degrees)),
    "tan": lambda degrees: math.tan(math.radians(degrees)),
}  # fmt: skip
NUMBER = re.compile(r"(?<![\w.])(\d+\.?\d*(?:e[+-]?\d+)?|\.\d+)(?![\w.])")
NAME = re.compile(r"[A-Za-z_]+")
FACTORS = {"1.67", "2.34", "4.36", "0.613"}  # of the codes' own equations
FEW, FACTORS_FROM = (
    2,
    0.1,
)  # figures of a load or gust factor, which is no rounded result, and the least there is
SMALL_M = 0.25  # in feet, a length under it is told in inches
EXACT_UNDER = 100.0  # a whole number under it is a count or a factor, not a rounded figure


def arithmetic(formula: str) -> str | None:
    """A formula as Python reads it; None where there is more in it than numbers and what is known of them."""
    text = formula.split(";")[0].replace(" x ", " * ").replace("^", "**")
    text = re.sub(r"(?<=[\d)]) e\*\*", " * e**", text)
    text = re.sub(r"\b(sin|cos|tan|sqrt) (-?[\d.]+)", r"\1(\2)", text)
    text = re.sub(r"(?<=\d) (?:Wh|h|V|A)\b", "", text)
    text = re.sub(r"\bpi (?=[\d.])", "pi * ", re.sub(r"(?<=\d) pi\b", " * pi", text))
    text = re.sub(r" \((?:compact|D/t|walls)[^()]*\)$", "", text)  # what a wall is, behind its sum
    bare = re.sub(r"(?<=\d)e(?=[+-]?\d)", "", text)
    if set(NAME.findall(bare)) - set(KNOWN) or "..." in text or not NUMBER.search(text):
        return None
    return text


def value_of(text: str) -> float:
    return float(eval(text, {"__builtins__": {}}, KNOWN))  # noqa: S307 - our own formulas only


def half_of_last(number: str) -> float:
    """Half a unit of a number's last figure; nothing for a count."""
    mantissa, _, power = number.partition("e")
    decimals = len(mantissa.partition(".")[2])
    if not decimals and not power:
        return 0.5 if float(mantissa) >= EXACT_UNDER else 0.0
    few = (
        not power
        and len(number.replace(".", "").strip("0")) <= FEW
        and float(number) >= FACTORS_FROM
    )
    if number in FACTORS or few:
        return 0.0
    return float(0.5 * 10.0 ** (int(power or 0) - decimals))


def slack_of(text: str) -> float:
    """How far a sum may be off by the rounding of each number in it."""
    value, slack = value_of(text), 0.0
    for found in NUMBER.finditer(text):
        more = half_of_last(found[1])
        if more:
            slack += abs(value_of(f"{text[: found.start()]}({found[1]} + {more}){text[found.end() :]}") - value)  # fmt: skip
    return slack


def half_of_shown(value: float) -> float:
    return 0.0 if value == 0.0 else float(0.5 * 10.0 ** (math.floor(math.log10(abs(value))) - 3))


def follows(step: Step) -> bool | None:
    """Whether the result follows from the numbers beside it, within their rounding; None where nothing can be worked."""
    text = arithmetic(step.formula)
    if text is None:
        return None
    shown = float(significant(step.value).replace(",", "").replace("\u2212", "-"))
    most = 1.02 * (slack_of(text) + half_of_shown(shown)) + 1e-12
    return abs(value_of(text) - shown) <= most


def rungs(demo: str) -> Iterator[tuple[str, Step]]:
    for name, what in chain(of_answer(worked(demo)), of_all_wires(wired(demo))):
        for step in (what.working if isinstance(what, Check) else what).steps:
            yield name, step


@pytest.mark.parametrize("demo", demo_names())
def test_what_a_rung_prints_follows_from_its_own_numbers(demo: str) -> None:
    seen = {(step.symbol, step.formula): (name, step) for name, step in rungs(demo)}
    told = [(name, step, follows(step)) for name, step in seen.values()]
    assert [(name, step) for name, step, holds in told if holds is False] == []
    assert sum(holds is True for *_, holds in told) > 250


@pytest.mark.parametrize("demo", demo_names())
def test_no_rung_is_only_rounding_and_no_source_says_twice_that_it_is_from_memory(
    demo: str,
) -> None:
    for name, step in rungs(demo):
        assert step.value == 0.0 or abs(step.value) > 1e-12, (name, step)
        for work in str(step.source).split(";"):
            assert work.count("(from memory)") <= 1, (name, step)


@pytest.mark.parametrize("demo", demo_names())
def test_a_stress_is_told_in_the_unit_of_its_strength(demo: str) -> None:
    """Concrete's rim at 6,649 psf stood beside 1.036 ksi; soil and wind stay in psf."""
    told = {}
    for _, what in of_answer(worked(demo)):
        if isinstance(what, Check) and what.unit == "Pa":
            last = [step for step in what.working.steps if step.value == what.demand][-1]
            told[what.part] = (in_trade(last, "feet", what), in_trade(last, "feet"))
    rim, bare = told["pole in its concrete"]
    assert rim.endswith(" ksi")
    assert bare.endswith(" psf")
    assert abs(float(rim.split()[0]) * 144e3 / float(bare.split()[0].replace(",", "")) - 1.0) < 0.02
    for part in ("soil under the pier", "modules, from behind"):
        assert told[part][0] == told[part][1]
        assert told[part][0].endswith(" psf")


@pytest.mark.parametrize("demo", demo_names())
def test_words_an_engineer_reads_stand_as_they_should(demo: str) -> None:
    """Straight sides are a limit of entering, not of digging; the push's last sign is told; small lengths stand in inches."""
    answer = worked(demo)
    sides = next(check for check in answer.build.checks if "straight sides" in check.name)
    assert (sides.part, sides.name) == ("trench", "entered with straight sides")
    assert [step.word for step in sides.working.steps] == [
        "as dug",
        "entered with straight sides, up to",
    ]
    cases = [
        note
        for check in answer.stand.checks
        for note in check.working.notes
        if "wind on the" in note
    ]
    assert cases != []
    for note in cases:
        assert not re.search(r", [+-]\.?$", note), note
        if "case" in note and "EN" not in answer.basis:
            assert re.search(r"its push off the middle along the chord \([+−]\)", note), note
    lengths = [step for _, step in rungs(demo) if step.unit == "m" and step.value > 0.0]
    assert any(step.value < SMALL_M for step in lengths)
    for step in lengths:
        assert in_style(step.value, "m", "feet").endswith(
            " in" if step.value < SMALL_M else " ft"
        ), step


@pytest.mark.parametrize(
    ("formula", "value", "holds"),
    [("2413 x 15.80", 38130.0, True), ("2413 x 15.80", 38260.0, False), ("sqrt(3^2 + 4^2)", 5.0, True), ("27000 x sin 30.0", 13500.0, True),
     ("27000 x sin 30.0", 13600.0, False), ("0.6 x (-93) + 0.6 x (3038)", 1768.0, False), ("at the ground", 5.0, None), ("", 5.0, None)],
)  # fmt: skip
def test_the_search_finds_what_does_not_follow(formula: str, value: float, holds: bool) -> None:
    assert follows(Step("", "", formula, value, "", COMMON_PRACTICE)) is holds
