"""One HTML text: cards to tick, gust card, tape table, pole-side card, and what to do when it will not move."""

from __future__ import annotations

import base64
from collections.abc import Iterator, Sequence
from datetime import date
from hashlib import sha256
from html import escape
from importlib.resources import files

from polestead.base.show import gust
from polestead.build.cards.card import Card
from polestead.sheets.book.book import gauge_in
from polestead.sheets.book.gusts import card_rows, tape_rows
from polestead.sheets.book.matter import Matter, figure_words, picture_of
from polestead.sheets.book.press import ON_PAGE
from polestead.sheets.charts import gust_card
from polestead.sheets.svg import SCREEN

NARROW = 358.0


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
    body = "\n".join(_body(matter))
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
    yield from _will_not_move(matter)
    yield from _gusts(matter)
    yield from _pole_side(matter)
    yield from _tape(matter)
    for nth, card in enumerate(matter.cards, start=1):
        yield from _card(matter, card, nth)
    yield from _steps(matter)
    yield from _line()


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
    links = [("will-not-move", "It will not move"), ("gusts", "Gust card"), ("pole-side", "At the pole"), ("tape", "Tape table")]  # fmt: skip
    links += [(f"card-{card.act.replace(' ', '-')}", card.title) for card in matter.cards]
    links += [("order", "The order of work")] if not matter.cards else []
    links.append(("ticks", "Your ticks as one line"))
    items = "".join(f'<li><a href="#{escape(at)}">{escape(words)}</a></li>' for at, words in links)
    yield f'<nav aria-label="what is in it"><ul>{items}</ul></nav><main>'


def _will_not_move(matter: Matter) -> Iterator[str]:
    """What to do when it sticks and wind is coming."""
    yield '<section id="will-not-move"><h2>It will not move</h2>'
    yield '<p class="caution">Stop. Do not push, pull or climb. Nobody under it.</p><ol>'
    yield "".join(f"<li>{escape(words)}</li>" for words in stuck_words(matter))
    yield "</ol></section>"


def stuck_words(matter: Matter) -> tuple[str, ...]:
    """In order: what to look at, what to leave, what the wind allows."""
    stand, style = matter.answer.stand, matter.style
    under = stand.move_under_m_s
    flat = stand.card[0]
    said = [
        "Look before you press again: storm hold and prop out? Ice, snow or a branch on it? Cable loop caught? Rod straight?",
        "Key off, then the fuse of the drive and its supply's volts. No second try on a hot motor.",
    ]
    if under is not None:
        said.append(f"Gusts over {gust(under, style)}: leave it where it is. It is moved only under that.")  # fmt: skip
    said += [
        "Put the storm hold in at the nearest hole, both pins. Locked, it stands to the figure of that tilt in the gust card; on the rod alone to less.",
        f"In calm only, and by two people, one at each end and clear of the edge: lay it flat by hand with rope and tackle after the rod's pin is out. Flat and locked it stands to {gust(flat.stands_to_m_s, style)}.",
        "If it cannot be locked nor laid flat: keep everybody away by its height and half again until the wind is gone. It can be built again.",
    ]
    return tuple(said)


def _gusts(matter: Matter) -> Iterator[str]:
    yield '<section id="gusts"><h2>Gust card</h2>'
    yield _table(("tilt", "stands to", "gives first", "lay flat under"), card_rows(matter), big=(1,))  # fmt: skip
    yield gust_plot(matter)
    yield '<p class="pencil">Three-second gusts at 10 m (33 ft) in the open, rounded down. Void if the steel or the pins change.</p></section>'


def gust_plot(matter: Matter) -> str:
    """The curve, drawn for a narrow screen."""
    svg = gust_card(matter.answer.stand, matter.style, SCREEN, NARROW, 300.0, 13.0)
    return svg.replace("<svg ", f'<svg aria-label="{escape(picture_of(svg).words)}" ', 1)


def _table(heads: Sequence[str], rows: Sequence[Sequence[str]], big: Sequence[int] = ()) -> str:
    top = "".join(f'<th scope="col">{escape(word)}</th>' for word in heads)
    body = ""
    for first, *rest in rows:
        cells = "".join(f"<td{' class=big' if nth in big else ''}>{escape(word)}</td>" for nth, word in enumerate(rest, start=1))  # fmt: skip
        body += f'<tr><th scope="row">{escape(first)}</th>{cells}</tr>'
    return f"<table><thead><tr>{top}</tr></thead><tbody>{body}</tbody></table>"


def _pole_side(matter: Matter) -> Iterator[str]:
    """What hangs at the pole."""
    stand, style = matter.answer.stand, matter.style
    yield '<section id="pole-side"><h2>At the pole</h2>'
    rows = [(one.name, f"{one.tilt_deg:.0f}°", gust(one.stands_to_m_s, style), one.words) for one in stand.stances]  # fmt: skip
    yield _table(("stance", "tilt", "stands to", ""), rows, big=(1, 2))
    for words in never_words(matter):
        yield f'<p class="caution">{escape(words)}</p>'
    yield "</section>"


def never_words(matter: Matter) -> tuple[str, ...]:
    """What is never done."""
    under = matter.answer.stand.move_under_m_s
    said = ["Look up and round before you press. Nobody under the array.", "Never move it with snow, ice or a heap against the edge on it."]  # fmt: skip
    if under is not None:
        said.append(f"Never move it in gusts over {gust(under, matter.style)}.")
    said += [
        "Never leave it on the rod alone: the storm hold goes in each time.",
        "Never put a hand into hinge or hold before prop and lock are in.",
        "Never pull a connector: the modules are live in any light.",
    ]
    return tuple(said)


def _tape(matter: Matter) -> Iterator[str]:
    gauge = gauge_in(matter)
    yield '<section id="tape"><h2>Tape table</h2>'
    if gauge is None:
        yield "<p>No drive in the file: the table needs its pins and its stroke.</p></section>"
        return
    if not gauge.proved:
        yield '<p class="caution">UNPROVED: read the level, not the rod, until two measured pairs are written in.</p>'
    yield _table(("tilt", "rod shows", "", "seconds"), tape_rows(gauge), big=(1,))
    yield "</section>"


def _card(matter: Matter, card: Card, nth: int) -> Iterator[str]:
    act = escape(card.act)
    yield f'<article id="card-{act.replace(" ", "-")}"><p class="pencil">act {nth} of {len(matter.cards)}</p><h2>{escape(card.title)}</h2>'
    hire = f" Hire: {escape(card.hire)}." if card.hire else ""
    tools = ", ".join(card.tools)
    at_hand = f" {escape(tools[0].upper() + tools[1:])}." if tools else ""
    yield f"<p>{escape(card.who)}.{at_hand}{hire}</p>"
    if card.needs:
        yield f'<p class="pencil">After: {escape(", ".join(card.needs))}.</p>'
    if card.missing:
        yield f'<p class="caution">This card needs: {escape(", ".join(card.missing))}.</p>'
    figures = "".join(f"<div><dt>{escape(figure_words(one, matter.style))}</dt><dd>{escape(one.words)}</dd></div>" for one in card.figures)  # fmt: skip
    yield f'<dl>{figures}</dl><ol class="steps">'
    for place, step in enumerate(card.steps):
        yield _tick(act, place + 1, step.words, step.caution)
        if card.gate is not None and card.gate_after == place:
            yield _gate(card, place + 1)
    yield "</ol>"
    if card.as_built:
        yield "<h3>Measured as built</h3>" + "".join(f'<label class="field">{escape(one.words)}<input data-act="{act}" data-key="{escape(one.key)}" autocomplete="off"></label>' for one in card.as_built)  # fmt: skip
    yield "".join(f'<p class="pencil">{escape(words)}</p>' for words in card.notes)
    yield "</article>"


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


def _line() -> Iterator[str]:
    yield (
        '<section id="ticks"><h2>Your ticks as one line</h2><p>Copy it somewhere safe, or send it. To bring it back, paste it here and take it in.</p>'
        '<label for="line" class="pencil">ticks</label><textarea id="line" rows="4" spellcheck="false" autocomplete="off"></textarea>'
        '<button id="copy" class="scripted" type="button" hidden>Copy</button><button id="take" class="scripted" type="button" hidden>Take it in</button></section></main>'
    )
