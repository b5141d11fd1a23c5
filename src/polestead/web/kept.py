"""What the sheet works beside the answer, once for each state of the file, and keeps for the next request."""

from __future__ import annotations

from collections import OrderedDict
from concurrent.futures import Future, ThreadPoolExecutor
from threading import Lock
from typing import Any

from polestead.answer.answer import Answer
from polestead.answer.day_sun import SunOfDays, sun_of_days
from polestead.answer.tilts import Tilts, tilts_of
from polestead.homestead.read import OwnersFile

MOST = 4  # states kept
Key = tuple[str, str, int]


class Kept:
    """Tilts at once; the sun of every day in the background, for it takes seconds."""

    def __init__(self) -> None:
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
        return working.result() if working.done() else None

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
