"""The sketches by name."""

from __future__ import annotations

from polestead.answer.drawables import Drawables
from polestead.base.show import Style
from polestead.sheets.drawn.board import Board
from polestead.sheets.drawn.hatches import by_hand, concrete, sand, steel
from polestead.sheets.drawn.hinge import ear_sketch
from polestead.sheets.drawn.sketches import ground, moves, wires
from polestead.sheets.drawn.sketches import steel as of_steel
from polestead.sheets.drawn.sketches.board import Sketch
from polestead.sheets.svg import Ink

SKETCHES: dict[str, Sketch] = {
    "locate": ground.locate, "stake": ground.stake_out, "trench": ground.trench, "trench laid": ground.trench_laid, "hole": ground.hole,
    "brace": ground.brace, "noon": ground.noon, "pour": ground.pour, "collar": ground.collar,
    "shop": of_steel.frame, "test piece": of_steel.test_piece, "ears": ear_sketch, "lift": of_steel.slung, "held": of_steel.held,
    "order": of_steel.order, "clamps": of_steel.clamps, "strings": of_steel.strings,
    "boxes": wires.boxes, "probes": wires.probes, "volts": wires.volts,
    "travel": moves.travel, "rod": moves.rod, "stances": moves.stances, "drop": moves.drop, "stuck": moves.stuck,
}  # fmt: skip
# Thing wider than high: so high is enough of it [px on a card].
WIDE_PX = {"stake": 420.0, "trench": 320.0, "collar": 330.0, "shop": 420.0, "ears": 330.0, "lift": 350.0, "order": 380.0, "strings": 400.0, "probes": 330.0, "test piece": 400.0}  # fmt: skip
HATCHES = (("footing-concrete", concrete), ("footing-steel", steel), ("sketch-hand", by_hand), ("sketch-sand", sand))  # fmt: skip


def sketch(name: str, d: Drawables, style: Style, ink: Ink, width: float, height: float, size: float) -> str:  # fmt: skip
    """A sketch by its name.

    Args:
        name: One of ``SKETCHES``.
        d: What is drawn.
        style: Whose units.
        ink: Screen or paper.
        width: Of the sketch [px].
        height: Of it [px]; it grows downwards where words found no room.
        size: Of its letters [px].
    """
    board = Board(width, height, ink, size)
    SKETCHES[name](d, board, style)
    defs = "".join(of(hatch, ink) for hatch, of in HATCHES if _used(board, hatch))
    return board.svg(defs, f"{d.name}, sketch: {name}")


def _used(board: Board, hatch: str) -> bool:
    return any(f"url(#{hatch})" in one for one in (*board.under, *board.lines))
