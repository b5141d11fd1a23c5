"""The owner's file as it lies open on the desk: what was read, what was worked from it, and its last good state."""

from __future__ import annotations

from dataclasses import dataclass
from threading import Lock

from polestead.answer.answer import Answer
from polestead.base.show import Style
from polestead.homestead.read import OwnersFile


@dataclass(frozen=True, slots=True)
class State:
    """One state of the desk; it is replaced whole, never changed.

    Attributes:
        owners: The file as last read without problems.
        answer: What was worked from it.
        style: The owner's units, unless the device asks for others.
    """

    owners: OwnersFile
    answer: Answer
    style: Style


class Desk:
    """Hands out the state; one for a server, shared by all requests."""

    def __init__(self, state: State) -> None:
        self._state = state
        self._lock = Lock()

    @property
    def state(self) -> State:
        """The state now; a request reads it once and keeps it."""
        with self._lock:
            return self._state

    def lay(self, state: State) -> None:
        """Put another state in its place."""
        with self._lock:
            self._state = state
