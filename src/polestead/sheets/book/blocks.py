"""What a page is made of: plain words in small boxes the typesetter knows how to lay."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any

from polestead.base.show import MINUS

Block = dict[str, Any]
_POWER = re.compile(r"\^(-?(?:\d+|[nt]\b))")
_HIGH = str.maketrans("-0123456789nt", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹ⁿᵗ")
_TENS = re.compile(r"\b(\d+(?:\.\d+)?)e([+-]\d+)\b")
_LESS = re.compile(r"(?:(?<=^)|(?<=[\s(]))-(?=[\s\d.(]|max\()")
_PI = re.compile(r"\bpi\b")
_PLAIN_POWER = re.compile(r"\b(yd|ft|in|mm|cm|m)([23])\b")


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing and its words for those who do not see it."""

    svg: str
    words: str


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the book that begins on a page of its own.

    Attributes:
        title: Its heading, and its line in the contents.
        blocks: In order.
        kind: ``flow`` (as many pages as it needs), ``wide`` (the same, the page turned), ``card`` (one act) or ``whole`` (a page drawn at 1:1).
        card: What a card's page says; nothing elsewhere.
    """

    title: str
    blocks: tuple[Block, ...] = ()
    kind: str = "flow"
    card: dict[str, Any] = field(default_factory=dict)


def head(words: str, level: int = 2) -> Block:
    """A heading inside a section."""
    return {"kind": "head", "words": words, "level": level}


def say(words: str) -> Block:
    """A paragraph."""
    return {"kind": "say", "words": raised(words)}


def small(words: str) -> Block:
    """A note in pencil."""
    return {"kind": "small", "words": raised(words)}


def listed(words: Iterable[str], mark: str = "•") -> Block:
    """Several notes, one under the other."""
    return {"kind": "list", "mark": mark, "words": [raised(one) for one in words]}


def caution(words: str) -> Block:
    """A caution with its bar."""
    return {"kind": "caution", "words": raised(words)}


def table(
    heads: Sequence[str], rows: Iterable[Sequence[str]], widths: Sequence[str], align: str = ""
) -> Block:
    """A table.

    Args:
        heads: Of the columns.
        rows: Their words.
        widths: ``auto``, or a share such as ``2fr``, one a column.
        align: One letter a column, l or r; empty: all to the left.
    """
    told = [[raised(word) for word in row] for row in rows]
    return {"kind": "table", "heads": list(heads), "rows": told, "widths": list(widths), "align": align or "l" * len(heads)}  # fmt: skip


def big_table(
    heads: Sequence[str],
    rows: Iterable[Sequence[str]],
    widths: Sequence[str],
    words_in: Sequence[int] = (),
) -> Block:
    """A table whose figures are read at arm's length; columns of words are set smaller."""
    return {**table(heads, rows, widths), "kind": "big-table", "words_in": list(words_in)}


def picture(made: Picture, wide: str = "100%", high: str = "") -> Block:
    """A drawing, so wide, or no higher than so much."""
    return {"kind": "picture", "svg": made.svg, "alt": made.words, "wide": wide, "high": high}


def together(blocks: Iterable[Block]) -> Block:
    """Blocks without a drawing that stand on one page."""
    return {"kind": "together", "blocks": list(blocks)}


def boxes(steps: Iterable[dict[str, Any]]) -> Block:
    """Steps with boxes to tick; each has ``words`` and may have ``more``, ``caution``, ``blanks``."""
    return {"kind": "boxes", "steps": [{key: raised(told) if isinstance(told, str) else told for key, told in step.items()} for step in steps]}  # fmt: skip


def gate(words: str, sign: str = "") -> Block:
    """Two posts and a bar, with room for a signature."""
    return {"kind": "gate", "words": raised(words), "sign": sign}


def blank_lines(words: Iterable[str]) -> Block:
    """Lines to write on."""
    return {"kind": "blanks", "words": list(words)}


def labels(plates: Iterable[tuple[str, Sequence[str]]]) -> Block:
    """Labels as they are engraved: where, and line by line."""
    return {"kind": "labels", "labels": [{"where": where, "lines": list(lines)} for where, lines in plates]}  # fmt: skip


def ladder(title: str, rows: Iterable[Sequence[str]], notes: Iterable[str], end: str = "") -> Block:
    """A working: word, symbol = formula = value, source."""
    told = [[raised(word), raised(set_sum(told)), raised(source)] for word, told, source in rows]
    return {"kind": "ladder", "title": title, "rows": told, "notes": [raised(one) for one in notes], "end": raised(end)}  # fmt: skip


def set_sum(words: str) -> str:
    """A sum as a printer sets it: times, minus, root, pi and powers of ten.

    Example:
        >>> set_sum("Mc = 2.413e+08 x 0.00051 / 1.67"), set_sum("M = -(0.5 x -12) - pi x sqrt(3) = −4 N")
        ('Mc = 2.413×10^8 × 0.00051 / 1.67', 'M = −(0.5 × −12) − π × √(3) = −4 N')
        >>> set_sum("short free-headed pile, 12-inch"), set_sum("1e-06 x 0.5")
        ('short free-headed pile, 12-inch', '1×10^-6 × 0.5')
    """
    words = _TENS.sub(lambda found: f"{found[1]}×10^{int(found[2])}", words)
    words = _LESS.sub(MINUS, words.replace(" x ", " × ").replace("sqrt ", "√").replace("sqrt(", "√("))  # fmt: skip
    return _PI.sub("π", words)


def raised(words: str) -> str:
    """Powers as a printer sets them.

    Example:
        >>> raised("931/1.02^15 + (1 + r)^-n"), raised("fck^(2 / 3)")
        ('931/1.02¹⁵ + (1 + r)⁻ⁿ', 'fck^(2 / 3)')
        >>> raised("2.2 yd^3 and 3 m^2"), raised("3 yd3 of it, 16 mm2 copper, 600 W/m2")
        ('2.2 yd³ and 3 m²', '3 yd³ of it, 16 mm² copper, 600 W/m²')
    """
    words = _POWER.sub(lambda found: found[1].translate(_HIGH), words)
    return _PLAIN_POWER.sub(lambda found: found[1] + ("³" if found[2] == "3" else "²"), words)
