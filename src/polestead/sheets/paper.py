"""The one-page sheet as PDF: elevation, the three answers in its title block, gust card, winter, what is assumed."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import Any

from polestead.answer.answer import Answer
from polestead.base.show import Style, gust, in_style, length, number
from polestead.base.spread import Spread
from polestead.offers.doubts import doubts_of
from polestead.sheets.charts import gust_card
from polestead.sheets.elevation import elevation
from polestead.sheets.sentences import fault_of, fuel, lost_words, three_answers, use_of
from polestead.sheets.svg import PAPER
from polestead.sheets.verdict import failing

CARD_ROWS = 7
MOST_GUESSES = 6
MOST_CAUTIONS = 4


def one_page(answer: Answer, style: Style) -> bytes:
    """The page; the same answer gives the same bytes."""
    import typst

    source = files("polestead.sheets").joinpath("one-page.typ").read_bytes()
    tilt = max(answer.schedule.moves, key=lambda move: move[1])[1]
    parts: dict[str, Any] = {
        "main": source,
        "elevation.svg": elevation(answer, style, tilt, PAPER).encode("utf-8"),
        "card.svg": gust_card(answer.stand, style, PAPER).encode("utf-8"),
    }
    compile_files: Any = (
        typst.compile
    )  # its stub does not know that a folder of files may be handed over
    page = compile_files(
        parts,
        format="pdf",
        sys_inputs={"page": json.dumps(_page(answer, style))},
        ignore_system_fonts=True,
        timestamp=0,
    )
    return bytes(page)


def _raised(words: str) -> str:
    """Powers as a printer sets them."""
    return words.replace("^3", "³").replace("^2", "²")


def _page(answer: Answer, style: Style) -> dict[str, Any]:
    """Everything the page says, as words."""
    broken = failing(answer)
    return {
        "paper": "us-letter" if style == "feet" else "a4",
        "name": answer.name,
        "we_are": f"we are {answer.we_are}",
        "warning": "THE SUMS SAY NO: " + "; ".join(fault_of(answer, check) for check in broken[:3])
        if broken
        else "",
        "answers": [
            {"question": said.question, "answer": said.answer, "beside": list(said.beside)}
            for said in three_answers(answer, style)
        ],
        "card": _card(answer, style),
        "winter": _winter(answer, style),
        "numbers": _numbers(answer, style),
        "guesses": _guesses(answer),
        "cautions": list(answer.cautions[:MOST_CAUTIONS]),
        "foot": f"Basis: {answer.basis} · {answer.years} years, seed {answer.seed} · homestead {answer.fingerprint} · "
        "screening sums, not a stamped design: local code and a licensed engineer decide",
    }


def _card(answer: Answer, style: Style) -> list[list[str]]:
    card = answer.stand.card
    step = max(1, round((len(card) - 1) / (CARD_ROWS - 1)))
    picked = [*card[:-1:step], card[-1]]
    return [
        [
            f"{row.tilt_deg:.0f}°",
            gust(row.stands_to_m_s, style),
            row.gives_first,
            "" if row.move_under_m_s is None else gust(row.move_under_m_s, style),
        ]
        for row in picked
    ]


def _winter(answer: Answer, style: Style) -> list[list[str]]:
    rows = []
    for word, summary in (
        ("without it", answer.winter.without),
        ("with it", answer.winter.with_new),
    ):
        rows.append([f"engine hours, {word}", *_three(summary.engine_hours)])
        fuels = [
            _fuel_range(low, high, style)
            for low, high in zip(
                _points(summary.fuel_least_l), _points(summary.fuel_most_l), strict=True
            )
        ]
        rows.append([f"fuel, {word}", *fuels])
    rows.append(["dark hours, with it", *_three(answer.winter.with_new.dark_hours)])
    return rows


def _fuel_range(low_l: float, high_l: float, style: Style) -> str:
    """Both ends of the fuel line, or one where they are the same."""
    high = fuel(high_l, style)
    low = fuel(low_l, style)
    return high if low == high else f"{low.split()[0]}–{high}"


def _points(spread: Spread) -> tuple[float, float, float]:
    return spread.good, spread.median, spread.bad


def _three(spread: Spread) -> list[str]:
    return [number(value) for value in _points(spread)]


def _numbers(answer: Answer, style: Style) -> list[list[str]]:
    wires, pour = answer.wiring, answer.build.concrete
    bags = pour.bags_sold(style == "metric")[0]
    most = answer.stand.checks[:3]
    return [
        ["coldest dawn, a string", f"{wires.cold_with_margin_v:.0f} V with margin"],
        [
            "the run in full sun",
            f"{wires.full_sun_a:.0f} A, {lost_words(wires)}",
        ],
        ["breaker, earth wire", f"{wires.in_place_a:g} A, {wires.earth_wire}"],
        [
            "concrete to order",
            _raised(f"{pour.sold} or {bags.count} bags of {bags.bag}"),
        ],
        ["all that tips", in_style(answer.geometry.mass_kg, "kg", style)],
        [
            "array",
            f"{length(answer.geometry.width_m, style)} x {length(answer.geometry.chord_m, style)}",
        ],
        *[[check.part, use_of(check.use)] for check in most],
    ]


def _guesses(answer: Answer) -> list[str]:
    guessed = [doubt.row for doubt in doubts_of(answer.rows) if doubt.row.standing == "assumed"]
    shown = [
        f"~{row.key.replace('_', ' ')} {row.told} ({row.why})" for row in guessed[:MOST_GUESSES]
    ]
    more = len(guessed) - len(shown)
    defaults = sum(row.standing == "default" for row in answer.rows)
    return [
        *shown,
        f"{f'{more} more guesses and ' if more > 0 else ''}{defaults} defaults of the tool: polestead ask lists them",
    ]
