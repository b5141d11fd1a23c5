"""Every drawing against five milliseconds, every sketch of a card against two; a book of cards against what its drawings take."""

from __future__ import annotations

from collections.abc import Callable
from time import process_time

from polestead.answer.drawables import drawables_of
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.sheets.drawn.index import DRAWINGS, drawing_named
from polestead.sheets.drawn.sketches.index import SKETCHES, sketch
from polestead.sheets.svg import PAPER, SCREEN

DRAWING_S, SKETCH_S = 0.005, 0.002


def _least(work: Callable[[], object], times: int = 15) -> float:
    """Shortest of several runs by this process's own clock, the first not counted."""
    work()
    taken = []
    for _ in range(times):
        start = process_time()
        work()
        taken.append(process_time() - start)
    return min(taken)


def run() -> list[tuple[str, float, float]]:
    """(name, ratio, wanted)."""
    d = drawables_of(read_homestead(demo_path("hollow-spruce")))
    rows = [
        (f"five milliseconds over the {name}, on screen", DRAWING_S / _least(lambda n=name: drawing_named(n, d, "feet", SCREEN, 802.0)), 1.0)
        for name in DRAWINGS
    ]  # fmt: skip
    slowest = max(SKETCHES, key=lambda name: _least(lambda: sketch(name, d, "feet", PAPER, 392.0, 430.0, 18.67), 3))  # fmt: skip
    of_it = _least(lambda: sketch(slowest, d, "feet", PAPER, 392.0, 430.0, 18.67))
    return [*rows, (f"two milliseconds over the slowest sketch, {slowest}", SKETCH_S / of_it, 1.0)]
