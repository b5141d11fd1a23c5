"""What is worked while the sheet stands idle, so that its margin fills by itself; whatever the owner asks for goes first."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from threading import Event, Thread

from polestead.web.desk import Desk

LOOK_S = 3.0  # between two looks whether it stands idle
QUIET_S = 4.0  # nothing was asked for so long
Aside = Callable[[Desk], bool]  # begins its work where that is wanting; whether it did


class Idle:
    """Looks now and then whether nobody asks and nothing runs, and then begins one thing that is wanting.

    Args:
        desk: Of the server.
        asides: What may be begun, the most wanted first.
        look_s: Between two looks.
        quiet_s: How long nobody has asked.
    """

    def __init__(self, desk: Desk, asides: Iterable[Aside], look_s: float = LOOK_S, quiet_s: float = QUIET_S) -> None:  # fmt: skip
        self._desk, self._asides = desk, tuple(asides)
        self._look_s, self._quiet_s = look_s, quiet_s
        self._end = Event()
        self._thread = Thread(target=self._watch, name="idle", daemon=True)

    def start(self) -> None:
        """Begin to look."""
        self._thread.start()

    def close(self) -> None:
        """Look no more."""
        self._end.set()

    def _watch(self) -> None:
        while not self._end.wait(self._look_s):
            self.turn()

    def turn(self) -> bool:
        """One look; whether something was begun."""
        desk = self._desk
        state = desk.state
        if state.answer is None or state.stale or desk.quiet_s() < self._quiet_s or desk.jobs.running():  # fmt: skip
            return False
        return any(aside(desk) for aside in self._asides)
