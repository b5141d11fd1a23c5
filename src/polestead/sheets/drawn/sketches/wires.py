"""Sketches of the wires: what follows what, where the meter's tips go, where volts are looked for."""

from __future__ import annotations

from polestead.answer.drawables import Drawables
from polestead.base.show import Style
from polestead.sheets.drawn.board import CUT, EDGE, Board
from polestead.sheets.drawn.sketches.board import box_of
from polestead.sheets.svg import Point


def boxes(d: Drawables, board: Board, style: Style) -> None:  # noqa: ARG001  names only
    """What stands on the line from the modules to the battery, in its order."""
    names = _down_to_the_battery(d)
    most = int((board.width * 0.9) / (board.size * board.ink.letter))
    each = board.height / len(names)
    last: Point | None = None
    for nth, name in enumerate(names):
        middle = (board.width / 2.0, each * (nth + 0.5))
        words = name if len(name) <= most else f"{name[: most - 1]}…"
        top, low = box_of(board, middle, board.width * 0.94, (words,), min(max(each * 0.72, min(each * 0.88, board.size * 1.3)), board.size * 1.9))  # fmt: skip
        if last is not None:
            board.edge((last, top), CUT)
        last = low
    board.told.append("in this order: " + ", ".join(names))


def _down_to_the_battery(d: Drawables) -> list[str]:
    stations = d.one_line.stations
    last = next((nth for nth, one in enumerate(stations) if one.kind == "battery"), len(stations))
    return [one.name for one in stations[: last + 1] if one.where != "ground"]


def probes(d: Drawables, board: Board, style: Style) -> None:  # noqa: ARG001  places only
    """One string, its bare ends, the meter across them, the switch open."""
    s = board.size
    count = d.given.array.in_series
    shown = min(count, 4)
    wide = (board.width - s * 2.0) / shown
    top = s * 1.0
    for nth in range(shown):
        x = s + nth * wide
        board.edge([(x + 3, top), (x + wide - 3, top), (x + wide - 3, top + s * 3.4), (x + 3, top + s * 3.4)], EDGE, closed=True)  # fmt: skip
        words = f"A{nth + 1}" if nth < shown - 1 or shown == count else f"A{count}"
        board.say((x + wide / 2.0, top + s * 2.0), (words,), "middle", heavy=True)
        if nth:
            board.edge(((x - 3.0, top + s * 2.6), (x + 3.0, top + s * 2.6)), CUT)
    ends = ((s * 2.2, "−"), (board.width - s * 2.2, "+"))
    low = min(board.height - s * 7.0, top + s * 9.0)
    for x, sign in ends:
        board.edge(((x, top + s * 3.4), (x, low)), CUT)
        board.circle((x, low), 5.0, 2.0, board.ink.paper)
        board.say((x + (s if sign == "−" else -s), low - s * 0.6), (sign,), "middle", heavy=True)
    meter = (board.width / 2.0, low)
    board.circle(meter, s * 1.5, CUT, board.ink.paper)
    board.say((meter[0], meter[1] + s * 0.35), ("V",), "middle", heavy=True)
    for (x, _), side in zip(ends, (-1.0, 1.0), strict=True):
        board.edge(((x, low), (meter[0] + side * s * 1.5, low)), 1.2, "6 3")
    y = low + s * 3.4
    board.edge(((ends[0][0], low + 5.0), (ends[0][0], y), (board.width * 0.4, y)), EDGE)
    board.edge(((board.width * 0.4, y), (board.width * 0.52, y - s * 1.5)), CUT)
    board.edge(((board.width * 0.54, y), (board.width - s, y)), EDGE)
    board.say((board.width / 2.0, y + s * 1.6), ("every switch open; bare ends only",), "middle")
    board.told.append("meter across the bare ends of one string, every switch open")


def volts(d: Drawables, board: Board, style: Style) -> None:  # noqa: ARG001  places only
    """The drive's own line: battery, fuse, key, motor, and where volts are read."""
    s = board.size
    names = ("drive's battery", "fuse", "key, stops, limit switches", "motor")
    each = (board.height - s * 1.0) / len(names)
    last: Point | None = None
    spots = []
    for nth, name in enumerate(names):
        middle = (board.width * 0.42, each * (nth + 0.5))
        top, low = box_of(board, middle, board.width * 0.8, (name,), min(each * 0.5, s * 2.2))
        if last is not None:
            board.edge((last, top), CUT)
            spots.append((last[0], (last[1] + top[1]) / 2.0))
        last = low
    for number, at in ((1, spots[0]), (2, spots[1]), (3, spots[2])):
        board.circle(at, 5.0, 2.0, board.ink.paper)
        board.say((at[0] + s * 0.8, at[1] + s * 0.35), (f"V{number}",), heavy=True)
    board.say((board.width / 2.0, board.height - s * 0.4), ("V3 with the key held",), "middle")
    board.told.append(
        "volts at the battery, behind the fuse, and at the motor while the key is held"
    )
