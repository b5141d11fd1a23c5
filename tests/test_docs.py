"""The documents are held against the house: every room, term, convention and default is where it is said to be."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

ROOT = Path(__file__).parent.parent
ROOMS = sorted(path.parent.name for path in (ROOT / "src/polestead").glob("*/__init__.py"))
CODE = [*ROOT.glob("src/**/*.py"), *ROOT.glob("tests/**/*.py"), *ROOT.glob("docs/**/*.md")]


def test_every_room_has_its_sentence_in_the_house() -> None:
    house = (ROOT / "docs/house.md").read_text(encoding="utf-8")
    assert [room for room in ROOMS if not re.search(rf"\*\*{room}\*\*", house)] == []


def test_the_drawing_of_the_house_is_the_contract() -> None:
    layers = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    contract = layers["tool"]["importlinter"]["contracts"][0]["layers"]
    drawn = (
        (ROOT / "docs/house.md").read_text(encoding="utf-8").split("```")[1].strip().splitlines()
    )
    assert [re.split(r"\s{2,}", line)[0] for line in drawn] == contract


def test_every_quoted_convention_exists() -> None:
    written = set(
        re.findall(r"\*\*§(\d+)", (ROOT / "docs/conventions.md").read_text(encoding="utf-8"))
    )
    quoted = {
        number
        for path in CODE
        for text in re.findall(
            r"onventions? ((?:§\d+(?:, | and )?)+)", path.read_text(encoding="utf-8")
        )
        for number in re.findall(r"\d+", text)
    }
    assert quoted <= written
    assert quoted


def test_words_are_in_order_and_stand_once() -> None:
    text = (ROOT / "docs/words.md").read_text(encoding="utf-8")
    words = re.findall(r"^\| ([^|]+) \|", text, flags=re.MULTILINE)[1:]
    assert words == sorted(words, key=lambda word: word.replace("-", " ").lower())
    assert len(words) == len(set(words))


def test_every_decision_has_its_choice() -> None:
    for path in (ROOT / "docs/decisions").glob("*.md"):
        text = path.read_text(encoding="utf-8")
        assert text.startswith(f"# {path.name[:4]} "), path.name
        assert "**Choice.**" in text, path.name
        assert "**Rejected.**" in text, path.name
