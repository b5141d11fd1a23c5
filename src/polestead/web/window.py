"""What lies at the window in the morning: the basis, worked once; the daybook; what was kept from here, and the words before it."""

from __future__ import annotations

import secrets
import shutil
import tempfile
from collections import OrderedDict
from collections.abc import Callable
from contextlib import AbstractContextManager
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from functools import lru_cache
from pathlib import Path
from threading import Lock, Thread
from typing import Any, cast
from weakref import WeakKeyDictionary, finalize

from starlette.requests import Request

from polestead.base.show import Style
from polestead.daybook.daybook import Daybook, Written, daybook_path, empty_daybook, open_daybook
from polestead.daybook.entry import Entry
from polestead.homestead.read import OwnersFile
from polestead.morning.basis import Basis, basis_of
from polestead.morning.clock import place_clock
from polestead.morning.decide import morning_of
from polestead.morning.forecast.asked import service_forecast
from polestead.morning.forecast.forecast import Forecast, nothing_heard
from polestead.morning.kept import keep, kept_path, key_of, read_kept
from polestead.morning.remembered import with_daybook
from polestead.morning.result import Morning
from polestead.morning.seen import Seen
from polestead.morning.week import WeekLeaf, week_of
from polestead.sheets.owners_log import house_in
from polestead.sheets.tonight import TonightGust
from polestead.web.desk import Desk, State
from polestead.web.render import desk_of
from polestead.web.work import Job

NAME = "morning"
SEED = 1  # of the morning's weather years
MOST = 200  # forms remembered, so that one sent twice is written once
Worked = tuple[str, Basis]  # fingerprint of the file, its basis


def worked(owners: OwnersFile, kept: Path, use_factor: float | None, progress: Callable[[str, int, int], None]) -> Worked:  # fmt: skip
    """The basis of a file, off the request; it is put by for the next time, on the page or at a terminal."""
    return owners.fingerprint, basis_for(owners, kept, progress, use_factor)


def basis_for(owners: OwnersFile, kept: Path, progress: Callable[[str, int, int], None], use_factor: float | None = None) -> Basis:  # fmt: skip
    """The basis put by for this file; else it is worked, and put by."""
    key = key_of(owners.path.read_bytes(), owners.path.parent)
    found = read_kept(kept, key)
    if found is None:
        found = basis_of(owners, progress, use_factor=use_factor)
        keep(kept, key, found)
    return found


@dataclass(frozen=True, slots=True)
class Looked:
    """The line and what it was made from.

    Attributes:
        line: As decided.
        seen: With what the daybook remembered.
        forecast: That was taken.
    """

    line: Morning
    seen: Seen
    forecast: Forecast


class Window:
    """One for a server."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._basis: tuple[OwnersFile, Basis] | None = None
        self._sent: OrderedDict[str, int] = OrderedDict()
        self._before: OrderedDict[int, tuple[str, ...]] = OrderedDict()
        self._tried: Path | None = None
        self._asked: tuple[str, Forecast] | None = None
        self._asking: Thread | None = None
        self._said: tuple[OwnersFile, Looked] | None = None

    # The basis.

    def basis(self, state: State, job: Job | None) -> Basis | None:
        """Of the last good text: held, put by, or just worked; None until it is worked."""
        owners = state.owners
        if owners is None:
            return None
        with self._lock:
            if self._basis is not None and self._basis[0] is owners:
                return self._basis[1]
        found = None
        if job is not None and job.stage == "done" and job.result[0] == owners.fingerprint:
            found = cast("Basis", job.result[1])
        elif not state.problems:
            found = read_kept(kept_of(state, owners), key_of(owners.path.read_bytes(), owners.path.parent))  # fmt: skip
        if found is not None:
            with self._lock:
                self._basis = (owners, found)
        return found

    def older(self, state: State) -> Basis | None:
        """The basis of an older text of the same file, for as long as the newer one is worked."""
        with self._lock:
            held = self._basis
        return held[1] if held and state.owners and held[0].path == state.owners.path else None

    # The daybook.

    def daybook(self, state: State) -> Path:
        """Where the daybook lies; a demo's is thrown away with the server."""
        if state.demo:
            return self._thrown_away() / f"{state.demo}.daybook"
        return daybook_path(cast("Path", state.path))

    def _thrown_away(self) -> Path:
        """A folder that goes with the server."""
        with self._lock:
            if self._tried is None:
                self._tried = Path(tempfile.mkdtemp(prefix="polestead-demo-"))
                finalize(self, shutil.rmtree, self._tried, ignore_errors=True)
            return self._tried

    def looks(self, state: State) -> AbstractContextManager[Daybook]:
        """The daybook for looking, which begins no file."""
        path = self.daybook(state)
        return open_daybook(path) if path.exists() else empty_daybook()

    def write(self, state: State, entry: Entry, now: datetime, style: Style, once: str) -> Written | None:  # fmt: skip
        """Write an entry, unless this very form was sent before.

        Args:
            state: Whose daybook.
            entry: What was seen.
            now: The clock.
            style: Whose units.
            once: Mark of the form.

        Raises:
            Wrong: It cannot be, or cannot be written.
        """
        path = self.daybook(state)
        with self._lock:
            if once in self._sent:
                return None
            with open_daybook(path) as book:
                written = book.append(entry, now, house_in(cast("OwnersFile", state.owners), style))
            _put(self._sent, once, written.number)
            return written

    def entry_of(self, once: str) -> int | None:
        """The entry a form was written as."""
        with self._lock:
            return self._sent.get(once)

    def said_before(self, number: int, sentences: tuple[str, ...]) -> None:
        """Hold on to what was said before an entry, so that what it changed can be marked."""
        with self._lock:
            _put(self._before, number, sentences)

    def before(self, number: int) -> tuple[str, ...] | None:
        """What was said before an entry was kept."""
        with self._lock:
            return self._before.get(number)

    # The line.

    def look(self, state: State, basis: Basis, now: datetime, style: Style, asked: Callable[[], None], ask: bool = True) -> Looked:  # fmt: skip
        """The line of this minute, from what the daybook holds.

        Args:
            state: Whose file.
            basis: Of it.
            now: The clock.
            style: Whose units.
            asked: Called once a service has answered.
            ask: Whether a service he consented to may be asked now.
        """
        now = now.replace(second=0, microsecond=0)
        clock = place_clock(basis.facts, now.year)
        at = clock.standard(now)
        known = with_daybook(Seen(at, clock=clock), self.daybook(state), basis, style)
        forecast = known.heard or (self._from_service(state, basis, at, asked) if ask else None) or nothing_heard(at.date())  # fmt: skip
        looked = Looked(morning_of(basis, known.seen, forecast, style), known.seen, forecast)
        if state.owners is not None:
            with self._lock:
                self._said = (state.owners, looked)
        return looked

    def due(self, state: State, now: datetime) -> bool:
        """Whether no line was looked at of this file, or the last one no longer holds."""
        with self._lock:
            said = self._said
        return said is None or said[0] is not state.owners or now.replace(tzinfo=None) > said[1].line.good_until  # fmt: skip

    def tonight(self, state: State, now: datetime) -> TonightGust | None:
        """The gust of the coming night as the morning last took it; None where it heard none, or that line no longer holds."""
        with self._lock:
            said = self._said
        if said is None or said[0] is not state.owners:
            return None
        line, forecast = said[1].line, said[1].forecast
        at = now.replace(tzinfo=None)
        if forecast.kind == "none" or not line.at <= at + timedelta(minutes=1) or at > line.good_until:  # fmt: skip
            return None
        night = line.tonight or line
        return None if night.gust_m_s is None else TonightGust(night.gust_m_s, night.upper_m_s)

    def _from_service(self, state: State, basis: Basis, at: datetime, asked: Callable[[], None]) -> Forecast | None:  # fmt: skip
        """What the service he consented to said last; it is asked beside the page, never waited for."""
        if basis.facts.service == "none" or state.path is None:
            return None
        hour = f"{state.path} {at:%Y-%m-%d %H}"
        with self._lock:
            held = self._asked
            idle = self._asking is None or not self._asking.is_alive()
            if idle and (held is None or held[0] != hour):
                kept = kept_of(state, cast("OwnersFile", state.owners)).with_suffix(".forecast")
                self._asking = Thread(target=self._ask, args=(hour, basis, at, kept, asked), daemon=True)  # fmt: skip
                self._asking.start()
        if held is not None and held[0].startswith(f"{state.path} "):
            return held[1]
        return nothing_heard(at.date(), ("The forecast is being asked for.",))

    def _ask(self, hour: str, basis: Basis, at: datetime, kept: Path, asked: Callable[[], None]) -> None:  # fmt: skip
        forecast = service_forecast(basis, at, kept)
        with self._lock:
            self._asked = (hour, forecast)
        asked()

    @staticmethod
    def week(basis: Basis, on: date, style: Style) -> WeekLeaf:
        """The week leaf from a day on."""
        return _week(basis, on, style)


def new_once() -> str:
    """A mark for one form."""
    return secrets.token_hex(8)


def factor_of(state: State, owners: OwnersFile) -> float | None:
    """The house-use factor the answer of this very text has fitted, on the same weather; None where there is none."""
    answer = state.answer
    if answer is None or answer.fingerprint != owners.fingerprint or answer.seed != SEED:
        return None
    return answer.winter.use_factor


def kept_of(state: State, owners: OwnersFile) -> Path:
    """Where the basis is put by."""
    return kept_path(owners.path, writable_beside=not state.demo)


@lru_cache(maxsize=4)
def _week(basis: Basis, on: date, style: Style) -> WeekLeaf:
    return week_of(basis, datetime.combine(on, datetime.min.time()), style)


def _put(held: OrderedDict[Any, Any], key: Any, value: Any) -> None:
    held[key] = value
    while len(held) > MOST:
        held.popitem(last=False)


_OPENING = Lock()
_WINDOWS: WeakKeyDictionary[Desk, Window] = WeakKeyDictionary()


def window_of(request: Request) -> Window:
    """The window of the server a request came to."""
    return window_over(desk_of(request))


def window_over(desk: Desk) -> Window:
    """The window beside a desk."""
    with _OPENING:
        if desk not in _WINDOWS:
            _WINDOWS[desk] = Window()
        return _WINDOWS[desk]
