"""The drawings and charts the book has of its own, by name; others may be laid over them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import floor

from polestead.answer.answer import Answer
from polestead.answer.wires import drawn_from
from polestead.base.show import Style
from polestead.homestead.read import OwnersFile
from polestead.sheets.charts import gust_card
from polestead.sheets.charts_costs import costs_chart
from polestead.sheets.charts_fortnight import fortnight_chart
from polestead.sheets.charts_habits import habits_chart
from polestead.sheets.charts_rod import rod_force_chart
from polestead.sheets.elevation import elevation
from polestead.sheets.one_line import one_line
from polestead.sheets.string_map import string_map
from polestead.sheets.svg import PAPER, Ink
from polestead.sheets.year import year_picture
from polestead.wiring.drawn.string_map import string_map_of

LANDSCAPE = 1216.0
WIDE = 760.0  # px over the width of the type area: 13 px are 9 pt there


def own_drawings(
    owners: OwnersFile, answer: Answer, style: Style, ink: Ink = PAPER, width: float = WIDE
) -> Mapping[str, Callable[..., str]]:
    """Side view, one-line, string map, gust card, the charts of year, fortnight, habits, rod and costs; each worked when it is called."""
    file = owners.homestead
    steep = max(answer.schedule.moves, key=lambda move: move[1])[1]

    def one_line_here() -> str:
        # as many letters to a place on the screen, whose face is wider, as on paper: no word is broken
        letters = floor(16.0 * PAPER.letter / ink.letter)
        return one_line(
            drawn_from(file, answer.wiring), style, ink, LANDSCAPE, letters, answer.name
        )

    engine, forces = file.household.engine, answer.more.rod_forces
    rules = None if engine is None else (engine.call_at, engine.let_go_at)
    rod = {} if len(forces) < 2 else {"rod force": lambda: rod_force_chart(forces, style, ink, width)}  # fmt: skip
    return {
        "side": lambda: elevation(answer, style, steep, ink, max(width, 640.0)),
        "one-line": one_line_here,
        "string map": lambda: string_map(string_map_of(file.array), style, ink, width, 13.0, answer.name),
        "gust card": lambda: gust_card(answer.stand, style, ink, width, 300.0),
        "year": lambda: year_picture(answer, ink, width),
        "fortnight": lambda: fortnight_chart(answer.winter.fortnight, ink, width, rules=rules),
        "habits": lambda: habits_chart(answer.habits, ink, width),
        "costs": lambda: costs_chart(answer.money.ledger, answer.money.currency, ink, width),
        **rod,
    }  # fmt: skip
