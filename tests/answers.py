"""The demos worked once a session, for every test that looks at a whole answer."""

from __future__ import annotations

from functools import cache

from polestead.answer.answer import Answer, answer_of
from polestead.answer.cards import cards_only
from polestead.answer.drawables import Drawables, drawables_of
from polestead.answer.wires import Wires, wires_in
from polestead.base.show import Style
from polestead.build.cards.card import Card
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.web.desk import State


@cache
def worked(name: str, years: int = 100) -> Answer:
    """The whole answer of a demo, as `polestead answer` works it."""
    return answer_of(read_homestead(demo_path(name)), years)


@cache
def on_the_desk(name: str) -> State:
    """A demo's file and answer, as the page opens them."""
    path = demo_path(name)
    owners = read_homestead(path)
    text = path.read_text(encoding="utf-8")
    return State(owners, worked(name), owners.homestead.units, path, name, text, owners.fingerprint)


@cache
def wired(name: str) -> Wires:
    """All the wires of a demo, as `polestead wires` works them."""
    return wires_in(read_homestead(demo_path(name)))


@cache
def drawn(name: str, style: Style = "feet") -> Drawables:
    """What a demo's drawings are made from."""
    return drawables_of(read_homestead(demo_path(name)), worked(name).stand, style)


@cache
def deck(name: str, style: Style = "feet") -> tuple[Card, ...]:
    """A demo's own cards."""
    return cards_only(read_homestead(demo_path(name)), stand=worked(name).stand, style=style)
