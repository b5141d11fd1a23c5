"""An open weather service, asked by the owner's consent only: politely, briefly, and believed only as far as it says its units.

Not asked more often than he allows, nor before the last reply runs out; with the date of what is at hand, so that an unchanged
reply costs nothing; never followed elsewhere; cut off by size and by time.  Whatever fails is a note; the line goes on.
"""

from __future__ import annotations

import json
import os
import tempfile
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from email.utils import parsedate_to_datetime
from pathlib import Path
from threading import Thread
from time import monotonic
from typing import Any, Protocol

from polestead import __version__
from polestead.morning.forecast.forecast import Forecast, nothing_heard

PATIENCE_S = 2.0  # for all of it, the name's address included
LARGEST_BYTES = 2_000_000
OLDEST_H = 48.0  # an older forecast counts for nothing
FORM = 1  # of the kept reply


class NotAsDocumented(ValueError):  # noqa: N818  reads as the sentence it is
    """A reply that is not what the service's own documents say; the message says what."""


class Service(Protocol):
    """What an adapter of one service knows."""

    @property
    def name(self) -> str:
        """Its name."""
        ...

    @property
    def base(self) -> str:
        """Scheme and host."""
        ...

    def path(self, latitude_deg: float, longitude_deg: float, elevation_m: float) -> str:
        """What is asked for; place to a kilometre, no finer."""
        ...

    def read(self, body: bytes, day: datetime, offset_h: float, usual_c: tuple[float, float]) -> Forecast:  # fmt: skip
        """Turn a reply into a forecast.

        Raises:
            NotAsDocumented: It is none.
        """
        ...


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked, by whom.

    Attributes:
        latitude_deg, longitude_deg, elevation_m: Of the place.
        offset_h: Local standard time less UTC.
        contact: Mail address the service may write to.
        every_s: Least time between two askings.
        usual_c: Coldest and warmest the place knows in this season; what lies far outside is not believed.
        kept: Where the reply is kept.
    """

    latitude_deg: float
    longitude_deg: float
    elevation_m: float
    offset_h: float
    contact: str
    every_s: float
    usual_c: tuple[float, float]
    kept: Path


@dataclass(frozen=True, slots=True)
class _Kept:
    asked: str = ""  # when it was last asked, UTC
    got: str = ""  # when the body came
    until: str = ""  # not asked before
    changed: str = ""  # Last-Modified of the body
    where: str = ""  # what was asked for
    body: str = ""


def fetched(service: Service, asked: Asked, now: datetime, base: str | None = None) -> Forecast:
    """The forecast of a service, or none with the reason.

    Args:
        service: Its adapter.
        asked: What is asked.
        now: The owner's clock, local standard time.
        base: Another scheme and host, for trying it out.
    """
    utc = (now - timedelta(hours=asked.offset_h)).replace(tzinfo=UTC)
    where = (base or service.base) + service.path(asked.latitude_deg, asked.longitude_deg, asked.elevation_m)  # fmt: skip
    kept = _read_kept(asked.kept)
    if kept.where != where:
        kept = _Kept(where=where)
    notes: tuple[str, ...] = ()
    if _due(kept, utc, asked.every_s):
        kept, notes = _ask(service, asked, kept, utc)
    if not kept.body:
        return nothing_heard(now.date(), notes or (f"{service.name} was asked a short while ago and had no forecast; it is not asked again yet.",))  # fmt: skip
    try:
        forecast = service.read(kept.body.encode(), now, asked.offset_h, asked.usual_c)
    except NotAsDocumented as wrong:
        return nothing_heard(now.date(), (*notes, f"{service.name} sent what cannot be believed: {wrong}. Nothing is made of it."))  # fmt: skip
    if forecast.age_h > OLDEST_H:
        return nothing_heard(now.date(), (*notes, f"The last forecast of {service.name} is {forecast.age_h:.0f} h old: it counts for nothing."))  # fmt: skip
    return replace(forecast, notes=(*notes, *forecast.notes))


def _due(kept: _Kept, utc: datetime, every_s: float) -> bool:
    asked, until = _when(kept.asked), _when(kept.until)
    if asked is not None and timedelta(0) <= utc - asked < timedelta(seconds=every_s):
        return False
    # a reply that claims to hold for weeks is asked after all
    return until is None or not utc < until < utc + timedelta(hours=12)


def _ask(service: Service, asked: Asked, kept: _Kept, utc: datetime) -> tuple[_Kept, tuple[str, ...]]:  # fmt: skip
    """One asking in a thread of its own, so that nothing, not even a name that does not resolve, holds the line up."""
    found: list[tuple[int, dict[str, str], bytes] | str] = []

    def work() -> None:
        try:
            found.append(_got(kept, asked.contact))
        except Exception as refused:
            found.append(f"{type(refused).__name__}: {refused}"[:120])

    thread = Thread(target=work, daemon=True)
    thread.start()
    thread.join(PATIENCE_S)
    tried = replace(kept, asked=utc.isoformat())
    reply = found[0] if found else f"no answer within {PATIENCE_S:.0f} s"
    if isinstance(reply, str):
        _write_kept(asked.kept, tried)
        return tried, (f"{service.name} did not answer ({reply}); {_goes_on(kept)}.",)
    status, headers, body = reply
    until = _header_time(headers.get("expires", ""))
    if status == 304 and kept.body:
        fresh = replace(tried, until=until, got=utc.isoformat())
        _write_kept(asked.kept, fresh)
        return fresh, ()
    if status != 200:
        _write_kept(asked.kept, tried)
        elsewhere = ", it points elsewhere and is not followed" if 300 <= status < 400 else ""
        return tried, (f"{service.name} answered with status {status}{elsewhere}; {_goes_on(kept)}.",)  # fmt: skip
    try:
        text = body.decode("utf-8")
        service.read(body, utc.replace(tzinfo=None) + timedelta(hours=asked.offset_h), asked.offset_h, asked.usual_c)  # fmt: skip
    except (UnicodeDecodeError, NotAsDocumented) as wrong:
        _write_kept(asked.kept, tried)
        return tried, (f"{service.name} sent what cannot be believed: {wrong}; {_goes_on(kept)}.",)
    fresh = replace(tried, until=until, got=utc.isoformat(), changed=headers.get("last-modified", ""), body=text)  # fmt: skip
    _write_kept(asked.kept, fresh)
    return fresh, ()


def _goes_on(kept: _Kept) -> str:
    return "the last forecast counts" if kept.body else "the line goes on without"


def _got(kept: _Kept, contact: str) -> tuple[int, dict[str, str], bytes]:
    """Status, headers and body of one asking; redirects are not followed, size and time are bounded."""
    from http.client import HTTPConnection, HTTPSConnection
    from urllib.parse import urlsplit

    give_up = monotonic() + PATIENCE_S
    parts = urlsplit(kept.where)
    kind = HTTPSConnection if parts.scheme == "https" else HTTPConnection
    connection = kind(parts.hostname or "", parts.port, timeout=PATIENCE_S)
    headers = {"User-Agent": f"polestead/{__version__} {contact}".strip(), "Accept": "application/json", "Accept-Encoding": "identity"}  # fmt: skip
    if kept.body and kept.changed:
        headers["If-Modified-Since"] = kept.changed
    try:
        connection.request("GET", f"{parts.path}?{parts.query}", headers=headers)
        reply = connection.getresponse()
        body = bytearray()
        while part := reply.read1(65536):
            body += part
            if len(body) > LARGEST_BYTES:
                message = f"more than {LARGEST_BYTES:,} bytes"
                raise OSError(message)
            if monotonic() > give_up:
                message = "too slow"
                raise OSError(message)
        return reply.status, {key.lower(): value for key, value in reply.getheaders()}, bytes(body)
    finally:
        connection.close()


def _header_time(text: str) -> str:
    with suppress(ValueError, TypeError):
        return parsedate_to_datetime(text).astimezone(UTC).isoformat()
    return ""


def _when(text: str) -> datetime | None:
    with suppress(ValueError):
        found = datetime.fromisoformat(text)
        return found if found.tzinfo is not None else None
    return None


def _read_kept(path: Path) -> _Kept:
    with suppress(OSError, ValueError, TypeError, AttributeError):
        raw: Any = json.loads(path.read_text(encoding="utf-8"))
        if raw.pop("form") == FORM and all(isinstance(value, str) for value in raw.values()):
            return _Kept(**raw)
    return _Kept()


def _write_kept(path: Path, kept: _Kept) -> None:
    """Whole or not at all; a place that may not be written keeps nothing."""
    told = {"form": FORM} | {name: getattr(kept, name) for name in _Kept.__dataclass_fields__}
    with suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            json.dump(told, file)
        os.replace(temporary, path)
