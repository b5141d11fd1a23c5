"""One HTML text: what to do when it will not move, the pole-side card, gust card, tape table, then every card to tick."""

from __future__ import annotations

import base64
import json
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from hashlib import sha256
from html import escape
from importlib.resources import files

from polestead.answer.cards import air_by_month_c
from polestead.base.show import in_one_unit, in_style
from polestead.build.cards.card import Card
from polestead.build.cure import USUAL_C, cure_table
from polestead.daybook.poured import COLDEST_C, WARMEST_C
from polestead.daybook.ticks import cards_of
from polestead.sheets.book.acts import missing_words, place_words, stance_rows
from polestead.sheets.book.book import gauge_in
from polestead.sheets.book.gusts import card_rows, tape_rows
from polestead.sheets.book.matter import Matter, figure_words, picture_of
from polestead.sheets.book.press import ON_PAGE
from polestead.sheets.charts import gust_card
from polestead.sheets.drawn.clock import cure_clock
from polestead.sheets.drawn.sketches.index import HATCHES, WIDE_PX, sketch
from polestead.sheets.morning import week_tables
from polestead.sheets.svg import SCREEN

NARROW = 358.0
SKETCH_HIGH, SKETCH_LETTERS = 360.0, 15.0
CURED = {"strip": "strip the collar's form", "bare steel": "bare steel on the pole", "modules": "modules"}  # fmt: skip
POUR_IN_LINE = (
    "The day of the pour and the air since, as typed at the cure clock, stand at its end."
)
FIRST = ("stuck", "pole-side")  # acts whose cards stand on top


def phone_file(matter: Matter) -> str:
    """The whole file; the same matter gives the same text.

    Nothing in it asks for anything outside itself: a policy in its head forbids all of it but its own style and script.

    Args:
        matter: From ``book.matter_of``.
    """
    style, script = (files("polestead.sheets.phone").joinpath(name).read_text("utf-8") for name in ("phone.css", "phone.js"))  # fmt: skip
    policy = (
        f"default-src 'none'; style-src '{_hash(style)}'; script-src '{_hash(script)}'; "
        "base-uri 'none'; form-action 'none'"
    )
    answer = matter.answer
    body = in_one_unit("\n".join(_body(matter)), matter.style)
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n<meta name="color-scheme" content="light dark">\n'
        f"<title>{escape(answer.name)}: in the pocket</title>\n<style>{style}</style>\n</head>\n"
        f'<body data-homestead="{escape(answer.fingerprint)}">\n{body}\n<p id="said" role="status"></p>\n<script>{script}</script>\n</body>\n</html>\n'
    )


def _hash(text: str) -> str:
    return "sha256-" + base64.b64encode(sha256(text.encode("utf-8")).digest()).decode("ascii")


def _body(matter: Matter) -> Iterator[str]:
    yield from _head(matter)
    yield from _contents(matter)
    waits = cards_of(matter.cards).waits
    for card in _first(matter):
        yield from _card(matter, card, waits)
    yield from _gusts(matter)
    yield from _tape(matter)
    yield from _week(matter)
    for card in matter.cards:
        if card.act not in FIRST:
            yield from _card(matter, card, waits)
    yield from _steps(matter)
    yield from _line(matter)


def _first(matter: Matter) -> list[Card]:
    """Cards wanted in a hurry, before all else."""
    return [card for act in FIRST for card in matter.cards if card.act == act]


def _head(matter: Matter) -> Iterator[str]:
    answer = matter.answer
    yield f"<header><h1>{escape(answer.name)}</h1>"
    yield f'<p class="pencil">{_day(matter.on)}homestead {escape(answer.fingerprint)} · {ON_PAGE}</p>'
    if matter.warning:
        yield f'<p class="no" role="alert">{escape(matter.warning)}</p>'
    yield '<noscript><p class="pencil">Without script the boxes tick, but nothing is kept and no gate holds you back: heed them yourself.</p></noscript></header>'


def _day(on: date | None) -> str:
    return "" if on is None else f"{on.day} {on:%b %Y} · "


def _contents(matter: Matter) -> Iterator[str]:
    links = [(f"card-{card.key}", card.title) for card in _first(matter)]
    links += [("gusts", "Gust card"), ("tape", "Tape table")]
    links += [("week", "Week leaf")] if matter.week is not None else []
    links += [(f"card-{card.key}", card.title) for card in matter.cards if card.act not in FIRST]
    links += [("order", "The order of work")] if not matter.cards else []
    links.append(("ticks", "Your ticks as one line"))
    items = "".join(f'<li><a href="#{escape(at)}">{escape(words)}</a></li>' for at, words in links)
    yield f'<nav aria-label="what is in it"><ul>{items}</ul></nav><main>'


def _gusts(matter: Matter) -> Iterator[str]:
    yield '<section id="gusts"><h2>Gust card</h2>'
    yield _table(("tilt", "stands to", "gives first", "lay flat under"), card_rows(matter), big=(1,))  # fmt: skip
    yield gust_plot(matter)
    yield '<p class="pencil">Three-second gusts at 10 m (33 ft) in the open, rounded down. Void if the steel or the pins change.</p></section>'


def gust_plot(matter: Matter) -> str:
    """The curve, drawn for a narrow screen."""
    return _labelled(gust_card(matter.answer.stand, matter.style, SCREEN, NARROW, 300.0, 13.0))


def _table(heads: Sequence[str], rows: Sequence[Sequence[str]], big: Sequence[int] = ()) -> str:
    top = "".join(f'<th scope="col">{escape(word)}</th>' for word in heads)
    body = ""
    for first, *rest in rows:
        cells = "".join(f"<td{' class=big' if nth in big else ''}>{escape(word)}</td>" for nth, word in enumerate(rest, start=1))  # fmt: skip
        body += f'<tr><th scope="row">{escape(first)}</th>{cells}</tr>'
    return f"<table><thead><tr>{top}</tr></thead><tbody>{body}</tbody></table>"


def _tape(matter: Matter) -> Iterator[str]:
    gauge = gauge_in(matter)
    yield '<section id="tape"><h2>Tape table</h2>'
    if gauge is None:
        yield "<p>No drive in the file: the table needs its pins and its stroke.</p></section>"
        return
    if not gauge.proved:
        yield '<p class="caution">UNPROVED: read the level, not the rod, until two measured pairs are written in.</p>'
    yield _table(("tilt", "rod shows", "seconds"), tape_rows(gauge, matter.style), big=(1,))
    yield "</section>"


def _week(matter: Matter) -> Iterator[str]:
    if matter.week is None:
        return
    told = week_tables(matter.week, matter.style)
    yield f'<section id="week"><h2>Week leaf</h2><p>{escape(told.head)}</p><p class="caution">{escape(told.under)}</p>'
    yield "<h3>Where to leave it, by the gust you hear for until the next morning</h3>"
    yield _table(("gust heard", "leave it"), told.gusts)
    yield "<h3>Engine today, by the charge at dawn and the sky</h3>"
    yield _table(("charge", *told.skies), told.engine)
    yield f'<p class="pencil">{escape(told.foot)}</p></section>'


def _card(matter: Matter, card: Card, waits: Mapping[str, Sequence[str]]) -> Iterator[str]:
    act = escape(card.act)
    gates = escape(json.dumps(list(waits[card.act])))
    yield f'<article id="card-{card.key}" data-waits="{gates}"><p class="pencil">{escape(place_words(matter, card))}</p><h2>{escape(card.title)}</h2>'
    hire = f" Hire: {escape(card.hire)}." if card.hire else ""
    tools = ", ".join(card.tools)
    at_hand = f" {escape(tools[0].upper() + tools[1:])}." if tools else ""
    yield f"<p>{escape(card.who)}.{at_hand}{hire}</p>"
    if card.needs:
        yield f'<p class="pencil">After: {escape(", ".join(card.needs))}.</p>'
    for words in missing_words(card):
        yield f'<p class="caution">{escape(words)}</p>'
    yield _drawn(matter, card)
    yield from _count(matter, card)
    figures = "".join(f"<div><dt>{escape(figure_words(one, matter.style))}</dt><dd>{escape(one.words)}</dd></div>" for one in card.figures)  # fmt: skip
    yield f"<dl>{figures}</dl>"
    if card.stances:
        yield _table(("stance", "tilt", "hole", "stands to"), [row[:4] for row in stance_rows(card, matter)], big=(1, 3))  # fmt: skip
    yield '<ol class="steps">'
    for nth, step in enumerate(card.steps, start=card.first):
        yield (
            f'<li data-act="{act}" data-rule="{nth}">{escape(step.words)}</li>'
            if step.rule
            else _tick(act, nth, step.words, step.caution)
        )
        if card.gate is not None and card.gate_after == nth - card.first:
            yield _gate(card, nth)
    yield "</ol>"
    if card.as_built:
        yield "<h3>Measured as built</h3>" + "".join(f'<label class="field">{escape(one.words)}<input data-act="{act}" data-key="{escape(one.key)}" autocomplete="off"></label>' for one in card.as_built)  # fmt: skip
    yield "".join(f'<p class="pencil">{escape(words)}</p>' for words in card.notes)
    yield "</article>"


def _drawn(matter: Matter, card: Card) -> str:
    """Sketch and clock for a narrow screen."""
    made = []
    if matter.drawn_from is not None and card.sketch:
        high = min(WIDE_PX.get(card.sketch, SKETCH_HIGH), SKETCH_HIGH)
        svg = sketch(card.sketch, matter.drawn_from, matter.style, SCREEN, NARROW, high, SKETCH_LETTERS)  # fmt: skip
        for hatch, _ in HATCHES:  # a name stands once in a page
            svg = svg.replace(hatch, f"{card.key}-{hatch}")
        made.append(svg)
    if card.clock is not None:
        made.append(cure_clock(card.clock, matter.style, SCREEN, NARROW, SKETCH_LETTERS))
    return "".join(_labelled(svg) for svg in made)


def _count(matter: Matter, card: Card) -> Iterator[str]:
    """The clock that counts: the law and the season stand in it as data, the days are typed."""
    if card.clock is None:
        return
    table = cure_table(card.clock, air_by_month_c(matter.owners))
    scale, example = ("F", "54, 48, ?, 50") if matter.style == "feet" else ("C", "12, 9, ?, 10")
    within = {"C": (COLDEST_C, WARMEST_C), "F": tuple(round(one * 1.8 + 32.0) for one in (COLDEST_C, WARMEST_C))}  # fmt: skip
    law = {"first": table.first, "shares": table.shares, "freezes": table.freezes, "months": table.months, "young": table.young_days, "marks": [(CURED[name], days) for name, days in table.marks], "scale": scale, "within": within, "usual": in_style(USUAL_C, "C", matter.style)}  # fmt: skip
    yield (
        f'<div id="cure" class="scripted" hidden data-law="{escape(json.dumps(law))}"><h3>Count it here</h3>'
        '<label class="field">poured on<input id="poured" type="date" autocomplete="off"></label>'
        f'<label class="field">mean of each 24 hours since, ? where nobody looked: {example}<input id="air" autocomplete="off" autocapitalize="off"></label>'
        '<p id="counted" role="status"></p><p class="pencil">The air stands for the concrete. Days after the last one typed go by this place\'s season, with ~: they may come colder. A day nobody looked at counts for nothing.</p></div>'
    )


def _labelled(svg: str) -> str:
    """A drawing with its words for those who do not see it."""
    return svg.replace("<svg ", f'<svg aria-label="{escape(picture_of(svg).words)}" ', 1)


def _tick(act: str, nth: int, words: str, caution: str) -> str:
    said = f'<p class="caution">{escape(caution)}</p>' if caution else ""
    return f'<li class="after"><label class="step"><input type="checkbox" data-act="{act}" data-step="{nth}"><span>{escape(words)}</span></label>{said}</li>'


def _gate(card: Card, after: int) -> str:
    gate = card.gate
    if gate is None:
        return ""
    blanks = "".join(f'<label class="field">{words}<input data-part="{part}" autocomplete="off"></label>' for part, words in (("by", f"Signed by ({escape(gate.sign)}), initials"), ("on", "on (12 Jun)"), ("why", "or not needed here because")))  # fmt: skip
    return f'<li class="gate" data-act="{escape(card.act)}" data-gate="{escape(gate.name)}" data-after="{after}"><strong>{escape(gate.words)}</strong>{blanks}</li>'


def _steps(matter: Matter) -> Iterator[str]:
    """The order of work, where no cards are given."""
    if matter.cards:
        return
    yield '<section id="order"><h2>The order of work</h2><ol class="steps">'
    for nth, words in enumerate(matter.answer.build.steps, start=1):
        yield _tick("order", nth, words, "")
    yield "</ol></section>"


def _line(matter: Matter) -> Iterator[str]:
    clock = f" {POUR_IN_LINE}" if any(card.clock is not None for card in matter.cards) else ""
    yield (
        '<section id="ticks"><h2>Your ticks as one line</h2><p>Copy it somewhere safe, or send it. To bring it back, paste it here and take it in.'
        f"{clock}</p>"
        '<label for="line" class="pencil">ticks</label><textarea id="line" rows="4" spellcheck="false" autocomplete="off"></textarea>'
        '<button id="copy" class="scripted" type="button" hidden>Copy</button><button id="take" class="scripted" type="button" hidden>Take it in</button></section></main>'
    )
