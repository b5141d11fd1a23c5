"""What the sheet works beside the answer, once for each state of the file, and keeps for the next request."""

from __future__ import annotations

import time
from collections import OrderedDict
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from threading import Lock
from typing import Any

from polestead.answer.answer import Answer
from polestead.answer.day_sun import SunOfDays, sun_of_days
from polestead.answer.tilts import Tilts, tilts_of
from polestead.homestead.read import OwnersFile

MOST = 4  # states kept
TRY_AGAIN_S = 10.0  # after work that failed
Key = tuple[str, str, int]


class Kept:
    """Tilts at once; the sun of every day in the background, for it takes seconds."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._faults: dict[Key, tuple[str, float]] = {}
        self._lock = Lock()
        self._tilts: OrderedDict[Key, Tilts] = OrderedDict()
        self._suns: OrderedDict[Key, Future[SunOfDays]] = OrderedDict()
        self._beside = ThreadPoolExecutor(max_workers=1, thread_name_prefix="sun of days")

    def tilts(self, owners: OwnersFile, answer: Answer) -> Tilts:
        """What changes with the tilt."""
        key = _key(owners, answer)
        with self._lock:
            found = self._tilts.get(key)
        if found is None:
            found = tilts_of(owners)
            with self._lock:
                _put(self._tilts, key, found)
        return found

    def sun(self, owners: OwnersFile, answer: Answer) -> SunOfDays | None:
        """What each day gives at each tilt; None while it is being worked."""
        key = _key(owners, answer)
        tilts = self.tilts(owners, answer)
        with self._lock:
            working = self._suns.get(key)
            if working is None:
                working = self._beside.submit(
                    sun_of_days, owners, answer.geometry, tilts.setting.card_tilts_deg, answer.seed
                )
                _put(self._suns, key, working)
        if not working.done():
            return None
        failed = working.exception()
        if failed is None:
            self._faults.pop(key, None)
            return working.result()
        with self._lock:  # dropped, so that it is tried again, though not at once
            now = self._clock()
            if key not in self._faults:
                self._faults[key] = (type(failed).__name__, now)
            elif now - self._faults[key][1] > TRY_AGAIN_S:
                self._suns.pop(key, None)
                self._faults.pop(key)
        return None

    def fault(self, owners: OwnersFile, answer: Answer) -> str:
        """Why the sun of the days could not be worked; empty while nothing failed."""
        return self._faults.get(_key(owners, answer), ("", 0.0))[0]

    def wait(self, owners: OwnersFile, answer: Answer) -> SunOfDays:
        """The same, waited for."""
        self.sun(owners, answer)
        with self._lock:
            working = self._suns[_key(owners, answer)]
        return working.result()


def _key(owners: OwnersFile, answer: Answer) -> Key:
    return str(owners.path), answer.fingerprint, answer.seed


def _put(kept: OrderedDict[Key, Any], key: Key, value: Any) -> None:
    kept[key] = value
    while len(kept) > MOST:
        kept.popitem(last=False)


KEPT = Kept()
