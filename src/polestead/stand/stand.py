"""The part checks over tilt, side and gust."""

from __future__ import annotations

from polestead.homestead.model import Drive, Footing, Lock, Mount, NewArray, Place
from polestead.stand.result import StandResult


def stand_of(
    place: Place,
    array: NewArray,
    mount: Mount,
    footing: Footing,
    drive: Drive | None,
    lock: Lock | None,
) -> StandResult:
    """Does it stand: every part, every tilt, up to which gust."""
    raise NotImplementedError
