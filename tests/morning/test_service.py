"""The open service, tried against a stub on this machine that misbehaves."""

from __future__ import annotations

import json
import threading
import time
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

import pytest

from polestead.morning.forecast import service
from polestead.morning.forecast.met_norway import UNITS, MetNorway
from polestead.morning.forecast.service import Asked, NotAsDocumented, fetched

NOW = datetime(2026, 11, 25, 7, 10)
OFFSET_H = -6.0
UTC_NOW = datetime(2026, 11, 25, 13, 10, tzinfo=UTC)


def reply(units=None, gust=12.0, wind=6.0, air=-5.0, updated=None, start=None, hours=60, cloud=20.0, symbol="clearsky_day", mm=0.0, **details):  # fmt: skip
    """A reply as the service's documents have it."""
    start = start or UTC_NOW.replace(minute=0)
    steps = []
    for hour in range(hours):
        instant = {
            "air_temperature": air,
            "wind_speed": wind,
            "cloud_area_fraction": cloud,
        } | details
        if gust is not None:
            instant["wind_speed_of_gust"] = gust
        steps.append({
            "time": (start + timedelta(hours=hour)).strftime("%Y-%m-%dT%H:%M:%SZ"),
            "data": {"instant": {"details": instant}, "next_1_hours": {"summary": {"symbol_code": symbol}, "details": {"precipitation_amount": mm}}},
        })  # fmt: skip
    meta = {"updated_at": (updated or UTC_NOW - timedelta(hours=1)).strftime("%Y-%m-%dT%H:%M:%SZ"), "units": dict(UNITS) | (units or {})}  # fmt: skip
    return json.dumps({"type": "Feature", "properties": {"meta": meta, "timeseries": steps}}).encode()  # fmt: skip


@contextmanager
def stub(answer):
    """A server on a free port; `answer(handler, nth)` writes the reply; requests are kept."""
    seen = []

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self):
            seen.append((self.path, dict(self.headers)))
            answer(self, len(seen))

        def log_message(self, *args):
            pass

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    server.daemon_threads = True
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}", seen
    finally:
        server.shutdown()
        server.server_close()


def send(handler, body, status=200, **headers):
    handler.send_response(status)
    for key, value in headers.items():
        handler.send_header(key.replace("_", "-"), value)
    handler.send_header("Content-Length", str(len(body)))
    handler.end_headers()
    handler.wfile.write(body)


def asked(tmp_path, **changes):
    given = {
        "latitude_deg": 47.912, "longitude_deg": -91.4, "elevation_m": 503.0, "offset_h": OFFSET_H, "contact": "owner@example.org",
        "every_s": 3600.0, "usual_c": (-30.0, 10.0), "kept": tmp_path / "spruce.forecast",
    } | changes  # fmt: skip
    return Asked(**given)


def ask(base, tmp_path, now=NOW, **changes):
    return fetched(MetNorway(), asked(tmp_path, **changes), now, base)


def test_a_good_reply_becomes_spans_of_six_hours(tmp_path) -> None:
    with stub(lambda h, _n: send(h, reply())) as (base, seen):
        found = ask(base, tmp_path)
    assert found.kind == "service"
    assert all((span.gust_m_s, span.sky, span.from_wind) == (12.0, "clear", False) for span in found.spans)  # fmt: skip
    assert found.spans[0].from_h == 6.0  # 13 UTC is 7 here
    assert found.age_h == pytest.approx(1.0, abs=0.2)
    ((path, headers),) = seen
    assert "lat=47.91&lon=-91.40" in path  # a kilometre, no finer
    assert "polestead" in headers["User-Agent"]
    assert "owner@example.org" in headers["User-Agent"]


def test_it_is_not_asked_again_within_the_hour_even_after_a_failure(tmp_path) -> None:
    with stub(lambda h, _n: send(h, b"", 500)) as (base, seen):
        first, second = ask(base, tmp_path), ask(base, tmp_path, NOW + timedelta(minutes=50))
        third = ask(base, tmp_path, NOW + timedelta(minutes=70))
    assert len(seen) == 2
    assert first.kind == second.kind == third.kind == "none"
    assert "status 500" in first.notes[0]
    assert "not asked again yet" in second.notes[0]


def test_an_unchanged_reply_is_asked_for_by_its_date(tmp_path) -> None:
    date = "Wed, 25 Nov 2026 12:00:00 GMT"

    def answer(handler, _nth):
        if handler.headers.get("If-Modified-Since") == date:
            send(handler, b"", 304)
        else:
            send(handler, reply(), Last_Modified=date)

    with stub(answer) as (base, seen):
        ask(base, tmp_path)
        found = ask(base, tmp_path, NOW + timedelta(hours=2))
    assert [headers.get("If-Modified-Since") for _, headers in seen] == [None, date]
    assert found.kind == "service"
    assert found.notes == ()


def test_a_reply_that_still_holds_is_not_asked_again(tmp_path) -> None:
    until = (UTC_NOW + timedelta(hours=5)).strftime("%a, %d %b %Y %H:%M:%S GMT")
    with stub(lambda h, _n: send(h, reply(), Expires=until)) as (base, seen):
        ask(base, tmp_path)
        assert ask(base, tmp_path, NOW + timedelta(hours=3)).kind == "service"
    assert len(seen) == 1


@pytest.mark.parametrize(
    ("body", "says"),
    [
        (b"{", "not the documented JSON"), (b"[]", "not the documented JSON"), (b"\xff\xfe", "cannot be believed"), (b"[" * 5000, "not the documented JSON"),
        (reply(units={"wind_speed": "km/h"}), "wind_speed is told in km/h"), (reply(units={"air_temperature": "fahrenheit"}), "air_temperature is told in fahrenheit"),
        (reply(units={"wind_speed_of_gust": "knots"}), "wind_speed_of_gust is told in knots"),
        (reply(air=41.0), "no temperature of this place"), (reply(wind=75.0, gust=80.0), "no weather"), (reply(gust=60.0, wind=6.0), "a gust of 60"),
        (reply(gust=2.0, wind=6.0), "a gust of 2"), (reply(wind=float("nan")), "no weather"), (reply(wind="fast"), "without its figures"),
        (reply(updated=UTC_NOW + timedelta(days=2)), "days to come"), (reply(start=UTC_NOW + timedelta(days=2)), "do not reach today"),
        (reply(start=UTC_NOW - timedelta(days=9)), "do not reach today"),
    ],
)  # fmt: skip
def test_a_reply_that_cannot_be_believed_counts_for_nothing(tmp_path, body, says) -> None:
    """Malformed, other units by name, other units by figure (Fahrenheit called Celsius, km/h called m/s), other days."""
    with stub(lambda h, _n: send(h, body)) as (base, _):
        found = ask(base, tmp_path)
    assert found.kind == "none"
    assert found.spans == ()
    assert says in " ".join(found.notes)


def test_a_reply_without_its_units_counts_for_nothing() -> None:
    told = json.loads(reply())
    told["properties"]["meta"]["units"] = {}
    with pytest.raises(NotAsDocumented, match="units"):
        MetNorway().read(json.dumps(told).encode(), NOW, OFFSET_H, (-30.0, 10.0))


def test_an_old_forecast_counts_for_nothing(tmp_path) -> None:
    stale = reply(updated=UTC_NOW - timedelta(hours=60), start=UTC_NOW - timedelta(hours=60), hours=150)  # fmt: skip
    with stub(lambda h, _n: send(h, stale)) as (base, _):
        found = ask(base, tmp_path)
    assert found.kind == "none"
    assert "60 h old" in " ".join(found.notes)


def test_after_a_failure_the_last_forecast_counts_with_its_age(tmp_path) -> None:
    with stub(lambda h, n: send(h, reply()) if n == 1 else send(h, b"{")) as (base, _):
        ask(base, tmp_path)
        found = ask(base, tmp_path, NOW + timedelta(hours=10))
    assert found.kind == "service"
    assert found.age_h == pytest.approx(11.0, abs=0.1)
    assert "the last forecast counts" in found.notes[0]


def test_it_is_not_followed_elsewhere(tmp_path) -> None:
    with stub(lambda h, _n: send(h, reply())) as (other, elsewhere), stub(lambda h, _n: send(h, b"", 302, Location=other)) as (base, _):  # fmt: skip
        found = ask(base, tmp_path)
    assert found.kind == "none"
    assert "not followed" in found.notes[0]
    assert elsewhere == []


@pytest.fixture
def hasty(monkeypatch):
    """So that these tests need not wait."""
    monkeypatch.setattr(service, "PATIENCE_S", 0.4)


def test_a_slow_one_is_not_waited_for(tmp_path, hasty) -> None:
    def answer(handler, _nth):
        time.sleep(3.0)

    with stub(answer) as (base, _):
        begun = time.monotonic()
        found = ask(base, tmp_path)
        waited = time.monotonic() - begun
    assert waited < 2.0
    assert "did not answer" in found.notes[0]


def test_one_that_drips_is_not_waited_for(tmp_path, hasty) -> None:
    def answer(handler, _nth):
        handler.send_response(200)
        handler.end_headers()
        for _ in range(40):
            try:
                handler.wfile.write(b" ")
                handler.wfile.flush()
            except OSError:
                return
            time.sleep(0.1)

    with stub(answer) as (base, _):
        begun = time.monotonic()
        found = ask(base, tmp_path)
        waited = time.monotonic() - begun
    assert waited < 2.0
    assert found.kind == "none"


def test_a_huge_one_is_cut_off(tmp_path, monkeypatch) -> None:
    monkeypatch.setattr(service, "LARGEST_BYTES", 200_000)
    with stub(lambda h, _n: send(h, b" " * 5_000_000)) as (base, _):
        found = ask(base, tmp_path)
    assert found.kind == "none"
    assert "more than 200,000 bytes" in found.notes[0]


def test_nobody_there(tmp_path) -> None:
    found = ask("http://127.0.0.1:9", tmp_path)
    assert found.kind == "none"
    assert "did not answer" in found.notes[0]


@pytest.mark.parametrize("text", ["", "{", "[]", '{"form": 1, "body": 3}', '{"form": 9}', '{"form": 1, "what": "x"}'])  # fmt: skip
def test_a_kept_reply_that_cannot_be_read_is_none(tmp_path, text) -> None:
    (tmp_path / "spruce.forecast").write_text(text)
    with stub(lambda h, _n: send(h, reply())) as (base, seen):
        assert ask(base, tmp_path).kind == "service"
    assert len(seen) == 1


def test_a_place_that_may_not_be_written_keeps_nothing(tmp_path) -> None:
    (tmp_path / "file").write_text("")
    with stub(lambda h, _n: send(h, reply())) as (base, _):
        assert ask(base, tmp_path, kept=tmp_path / "file" / "spruce.forecast").kind == "service"


def test_without_gusts_the_mean_wind_counts_times_one_and_a_half() -> None:
    found = MetNorway().read(reply(gust=None, wind=8.0), NOW, OFFSET_H, (-30.0, 10.0))
    assert all((span.gust_m_s, span.from_wind) == (12.0, True) for span in found.spans)
    assert "tells no gusts" in found.notes[0]


def test_cold_water_falls_as_ten_times_as_much_snow_and_thunder_is_named() -> None:
    snowy = MetNorway().read(reply(mm=1.0, cloud=100.0), NOW, OFFSET_H, (-30.0, 10.0)).spans[1]
    assert snowy.snow_m == pytest.approx(0.06)
    assert snowy.sky == "grey"
    wet = MetNorway().read(reply(mm=1.0, air=8.0, symbol="rainandthunder"), NOW, OFFSET_H, (-30.0, 10.0)).spans[1]  # fmt: skip
    assert (wet.snow_m, wet.rain, wet.thunder) == (None, True, True)
