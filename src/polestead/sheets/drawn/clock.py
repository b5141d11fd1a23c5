"""The cure clock: a ruled line from the pour, a tick a day and its box, and what may be done from which tick on."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from math import ceil

from polestead.base.show import Style, in_style
from polestead.build.cure import SHARES_AT_C, SHARES_AT_F, Cure, CureMark
from polestead.sheets.clip import Segment
from polestead.sheets.drawn.board import Board, strokes
from polestead.sheets.svg import Ink

PAST_DAYS = 3  # drawn beyond the last mark
BLANK_DAYS = 7  # and beyond the record, where more is wanted
HEAVY, PLAIN = 4.0, 1.2
DOTS = "1.5 5"
NARROW_UNDER = 500.0
LABEL_ROWS = 3
HIGHEST = 9.2  # letters: room for all of them


def cure_clock(cure: Cure, style: Style, ink: Ink, width: float, size: float) -> str:
    """The line.

    A day whose mean temperature counts is drawn heavy, one that was too cold plain, one nobody looked at dotted; days to come are
    plain, with a box under each for what it counts.

    Args:
        cure: The clock.
        style: Whose units.
        ink: Screen or paper.
        width: Of the drawing [px].
        size: Of its letters [px].
    """
    # in letters: on a narrow one the marks' words stand in rows
    board = Board(width, size * (6.4 if width >= NARROW_UNDER else HIGHEST), ink, size)
    marks = [(mark, day) for mark in cure.marks if (day := day_of(cure, mark)) is not None]
    days = max([len(cure.days) + (BLANK_DAYS if cure.days else 0), *(day for _, day in marks)]) + PAST_DAYS  # fmt: skip
    left, right, y = size * 0.4, width - size * 0.6, size * 3.1
    step = (right - left) / days

    def at(day: float) -> float:
        return left + step * day

    heavy: list[Segment] = []
    plain: list[Segment] = [((at(len(cure.days)), y), (right, y))]
    dotted: list[Segment] = []
    for one in cure.days:
        kind = dotted if one.air_c is None else heavy if one.counts else plain
        kind.append(((at(one.day - 1), y), (at(one.day), y)))
    board.lines += [strokes(heavy, ink.ink, HEAVY), strokes(plain, ink.ink, PLAIN)]
    if dotted:
        board.lines.append(strokes(dotted, ink.ink, HEAVY).replace("/>", f' stroke-dasharray="{DOTS}"/>'))  # fmt: skip
    ticks = [((at(day), y - size * 0.3), (at(day), y + size * 0.3)) for day in range(days + 1)]
    board.lines.append(strokes(ticks, ink.ink, 0.8))
    board.lines.append(strokes([((at(0), y - size * 0.8), (at(0), y + size * 0.8))], ink.ink, 2.5))
    _boxes(board, cure, days, at, y, step)
    poured = "poured ________" if cure.poured is None else f"poured {cure.poured.day} {cure.poured:%b %Y}"  # fmt: skip
    least = (
        f"{SHARES_AT_F[-1]:g} F" if style == "feet" else in_style(SHARES_AT_C[-1], "C", style)
    )  # the same step as the words beside the boxes
    board.say((left, size * 1.2), (poured,), heavy=True)
    room = width - board.wide(poured, heavy=True) - size * 2.0
    ways = (
        f"in each box what its day counts (under {least}: 0); they add up",
        f"boxes add up (under {least}: 0)",
    )
    told = next((words for words in ways if board.wide(words) <= room), "boxes add up")
    board.say((width - 4.0, size * 1.2), (told,), "end")
    for mark, day in marks:
        board.lines.append(strokes([((at(day), y - size * 0.9), (at(day), y + size * 1.5))], ink.ink, 2.5))  # fmt: skip
        words = f"{mark.name}, {day}"
        place, anchor = (at(day) - 3.0, "end") if at(day) > width * 0.7 else (at(day) + 3.0, "start")  # fmt: skip
        rows = [y + size * (2.6 + 1.4 * nth) for nth in range(LABEL_ROWS)]
        boxes = [board.box((place, row), (words,), anchor, True) for row in rows]
        while not any(map(board.free, boxes)) and board.height < size * HIGHEST:
            board.height += size * 1.4  # room for one more row
        row = next((row for row, box in zip(rows, boxes, strict=True) if board.free(box)), rows[0])
        board.say((place, row), (words,), anchor, heavy=True)
        board.told.append(f"{mark.name} from day {day}")
    unknown = cure.unknown_days
    board.told.append(f"{len(cure.days)} days of record, {unknown} without a temperature, {cure.cold_days} too cold to count")  # fmt: skip
    return board.svg("", "Cure clock")


def day_of(cure: Cure, mark: CureMark) -> int | None:
    """The day a mark stands at: as reached, else counted on at 20 C from the end of the record; None where it never is."""
    if mark.reached_day is not None:
        return mark.reached_day
    if mark.least_days is None or mark.more_days is None:
        return None
    return ceil(mark.least_days - 1e-9) if not cure.days else len(cure.days) + mark.more_days


def _boxes(board: Board, cure: Cure, days: int, at: Callable[[float], float], y: float, step: float) -> None:  # fmt: skip
    """A box for each day to come, as wide as the ticks leave."""
    side = min(step * 0.62, board.size * 0.8)
    top = y + board.size * 0.42
    rims: list[Segment] = []
    for day in range(len(cure.days), days):
        x = at(day + 0.5) - side / 2.0
        corners = ((x, top), (x + side, top), (x + side, top + side), (x, top + side), (x, top))
        rims += list(pairwise(corners))
    board.lines.append(strokes(rims, board.ink.ink, 0.8))
