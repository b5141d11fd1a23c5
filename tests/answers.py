"""The demos worked once a run, for every test that looks at a whole answer, whichever process it runs in."""

from __future__ import annotations

import fcntl
import os
import pickle
from collections.abc import Callable
from functools import cache, wraps
from pathlib import Path
from typing import ParamSpec, TypeVar

from polestead.answer.answer import Answer, answer_of
from polestead.answer.cards import cards_only
from polestead.answer.drawables import Drawables, drawables_of
from polestead.answer.wires import Wires, wires_in
from polestead.base.show import Style
from polestead.build.cards.card import Card
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.site.sunpath import sun_path
from polestead.web.desk import State

Asked = ParamSpec("Asked")
Made = TypeVar("Made")
SHARED = "POLESTEAD_TESTS_SHARED"  # the folder of this run, named by tests/conftest.py


def once_a_run(work: Callable[Asked, Made]) -> Callable[Asked, Made]:
    """Work it in one process; the others of the same run read what it wrote. Results are frozen, so a copy is as good."""

    @wraps(work)
    def shared(*given: Asked.args, **also: Asked.kwargs) -> Made:
        folder = os.environ.get(SHARED)
        if not folder:
            return work(*given, **also)
        kept = Path(folder) / "-".join((work.__name__, *map(str, given), *map(str, also.values())))
        with kept.with_name(kept.name + ".cord").open("w") as cord:
            fcntl.flock(cord, fcntl.LOCK_EX)
            if not kept.exists():
                kept.write_bytes(pickle.dumps(work(*given, **also)))
            made: Made = pickle.loads(kept.read_bytes())  # noqa: S301 - written by this run
            return made

    return shared


@cache
@once_a_run
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
@once_a_run
def wired(name: str) -> Wires:
    """All the wires of a demo, as `polestead wires` works them."""
    return wires_in(read_homestead(demo_path(name)))


@cache
@once_a_run
def drawn(name: str, style: Style = "feet") -> Drawables:
    """What a demo's drawings are made from."""
    return drawables_of(read_homestead(demo_path(name)), worked(name).stand, style)


@cache
@once_a_run
def deck(name: str, style: Style = "feet") -> tuple[Card, ...]:
    """A demo's own cards."""
    return cards_only(read_homestead(demo_path(name)), stand=worked(name).stand, style=style)


path_of = cache(sun_path)  # half a second each; nothing writes into it
