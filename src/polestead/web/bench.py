"""The cards on the bench: made once, their ticks read from the daybook beside the file and written back to it."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from pathlib import Path
from threading import Lock
from weakref import WeakKeyDictionary

from polestead.answer.answer import Answer
from polestead.answer.cards import cards_only
from polestead.answer.drawables import Drawables, drawables_of
from polestead.base.problem import Problem, Wrong
from polestead.base.show import Style
from polestead.build.cards.card import Card
from polestead.build.cards.cards import whole
from polestead.build.cure import Cure, cured_by
from polestead.daybook.daybook import Kept, daybook_path, open_daybook
from polestead.daybook.last import last_of, write_on
from polestead.daybook.poured import Poured, pour_note, pour_words, poured_in
from polestead.daybook.ticking import line_of
from polestead.daybook.ticks import Cards, Ticks, cards_of, read_what_fits
from polestead.homestead.read import OwnersFile
from polestead.sheets.drawn.sketches.index import HATCHES, WIDE_PX, sketch
from polestead.sheets.svg import SCREEN
from polestead.web.desk import Desk, State

KEPT = 4
MOST_STEPS_BACK = 50
POURED = "poured "
MOST_HIGH, LETTERS = 420.0, 13.0  # of a sketch


@dataclass(frozen=True, slots=True)
class Laid:
    """The cards as they lie there.

    Attributes:
        deck: One card for an act, in order.
        sheets: The same as on paper, where an act may take several.
        cards: What can be ticked on them.
        ticks: What is ticked, the pour with it.
        line: The same, as it is kept; the pour is kept beside it.
        lost: Parts of the kept line that are of no card any more.
        poured: Pour and days since, None where none is written.
        cure: The clock, None without a pour.
        fault: Why the daybook cannot be read; then nothing is ticked.
        memory: They lie in the memory of this server only.
        before: Lines before this one, which can be gone back to.
    """

    deck: tuple[Card, ...]
    sheets: tuple[Card, ...]
    cards: Cards
    ticks: Ticks
    line: str
    lost: tuple[Problem, ...]
    poured: Poured | None
    cure: Cure | None
    fault: str
    memory: bool
    before: tuple[str, ...]

    @property
    def told(self) -> str:
        """The line with the pour in it, as the phone file and the terminal take it."""
        parts = ["" if self.line == "none" else self.line, "" if self.poured is None else pour_words(self.poured)]  # fmt: skip
        return ", ".join(filter(None, parts)) or "none"

    def card(self, act: str) -> Card | None:
        """A card by its act."""
        return next((card for card in self.deck if card.act == act), None)


@dataclass(slots=True)
class _Page:
    """What is known of a file's page besides its daybook: lines to go back to, and a demo's own."""

    ticks: str = ""
    poured: Poured | None = None
    before: list[str] = field(default_factory=list)


class Bench:
    """One for a desk."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._made: OrderedDict[tuple[object, ...], tuple[Card, ...]] = OrderedDict()
        self._pages: dict[Path, _Page] = {}
        self._drawn: tuple[tuple[object, ...], Drawables] | None = None

    def sketch(self, state: State, answer: Answer, card: Card, style: Style, width: float) -> str:
        """A card's sketch, inked for the screen; empty where it has none."""
        if not card.sketch:
            return ""
        owners = _owners(state)
        key = (owners.fingerprint, id(answer))
        with self._lock:
            if self._drawn is None or self._drawn[0] != key:
                self._drawn = key, drawables_of(owners, answer.stand)
            drawn = self._drawn[1]
        high = min(WIDE_PX.get(card.sketch, MOST_HIGH), MOST_HIGH)
        svg = sketch(card.sketch, drawn, style, SCREEN, width, high, LETTERS)
        for hatch, _ in HATCHES:  # several sketches stand on a page, and a name stands once
            svg = svg.replace(hatch, f"{card.key}-{hatch}")
        return svg

    def laid(self, state: State, answer: Answer, now: datetime, style: Style) -> Laid:
        """The cards of a state; its file has been read.

        Raises:
            Wrong: No card can be made of this file.
        """
        with self._lock:
            owners, page = _owners(state), self._page(state)
            line, poured, fault = page.ticks, page.poured, ""
            if not state.demo:
                try:
                    kept = _entries(owners)
                except Wrong as wrong:
                    kept, fault = (), f"given {wrong.problems[0].given}. {wrong.problems[0].do}"
                last = last_of(kept, lambda entry: bool(entry.ticks))
                line = last.entry.ticks if last is not None else ""
                poured = poured_in(kept, now.date())
            sheets = self._sheets(owners, answer, poured, style)
            deck = whole(sheets)
            cards = cards_of(deck)
            ticks, lost = read_what_fits(line, cards, now.date()) if line else (Ticks(), [])
            cure = None
            if poured is not None:
                cure = cured_by(poured.daily_c, owners.homestead.footing.concrete_pa, poured=poured.on)  # fmt: skip
            ticks = replace(ticks, poured=poured)
            return Laid(deck, sheets, cards, ticks, line or "none", tuple(lost), poured, cure, fault, bool(state.demo), tuple(page.before))  # fmt: skip

    def tick(self, state: State, laid: Laid, ticks: Ticks, now: datetime) -> None:
        """Keep another line of ticks, and the pour where it tells another; a line without one leaves the pour as it is.

        Raises:
            Wrong: It cannot be kept.
        """
        line = line_of(ticks, laid.cards)
        if line != laid.line:
            self._write(state, line, now)
            with self._lock:
                before = self._page(state).before
                before.append(laid.line)
                del before[:-MOST_STEPS_BACK]
        if ticks.poured is not None and ticks.poured != laid.poured:
            self.pour(state, ticks.poured, now)

    def back(self, state: State, now: datetime) -> None:
        """Go back to the line before this one.

        Raises:
            Wrong: It cannot be kept.
        """
        with self._lock:
            before = self._page(state).before
            line = before.pop() if before else None
        if line is not None:
            self._write(state, line, now)

    def pour(self, state: State, poured: Poured, now: datetime) -> None:
        """Keep the pour and its days.

        Raises:
            Wrong: It cannot be kept.
        """
        if state.demo:
            with self._lock:
                self._page(state).poured = poured
            return
        path = daybook_path(_owners(state).path)
        with open_daybook(path) as book:
            last = last_of(book.entries(), lambda entry: entry.note.startswith(POURED))
            write_on(book, last, now, note=pour_note(poured))

    def _write(self, state: State, line: str, now: datetime) -> None:
        if state.demo:
            with self._lock:
                self._page(state).ticks = line
            return
        with open_daybook(daybook_path(_owners(state).path)) as book:
            last = last_of(book.entries(), lambda entry: bool(entry.ticks))
            write_on(book, last, now, ticks=line)

    def _page(self, state: State) -> _Page:
        return self._pages.setdefault(state.path or Path(), _Page())

    def _sheets(
        self, owners: OwnersFile, answer: Answer, poured: Poured | None, style: Style
    ) -> tuple[Card, ...]:
        told = None if poured is None else replace(poured, written=())
        key = (owners.fingerprint, id(answer), told, style)
        if key not in self._made:
            on, daily = (None, ()) if poured is None else (poured.on, poured.daily_c)
            self._made[key] = cards_only(owners, None, on, daily, answer.stand, style)
            while len(self._made) > KEPT:
                self._made.popitem(last=False)
        self._made.move_to_end(key)
        return self._made[key]


def _owners(state: State) -> OwnersFile:
    if state.owners is None:
        raise Wrong([Problem("", "the file", "one with things to mend", "a file without faults", "Mend it first.")])  # fmt: skip
    return state.owners


def _entries(owners: OwnersFile) -> Sequence[Kept]:
    """What counts; looking begins no daybook."""
    path = daybook_path(owners.path)
    if not path.exists():
        return ()
    with open_daybook(path) as book:
        return book.entries()


_BENCHES: WeakKeyDictionary[Desk, Bench] = WeakKeyDictionary()


def bench_of(desk: Desk) -> Bench:
    """The bench beside a desk."""
    return _BENCHES.setdefault(desk, Bench())
