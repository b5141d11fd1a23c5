"""The forecast file."""

from __future__ import annotations

from datetime import datetime

import pytest

from polestead.base.problem import Wrong
from polestead.morning.forecast.file_in import read_forecast_file

NOW = datetime(2026, 11, 25, 7, 10)
TOML = """
made = 2026-11-25T05:00:00
[[span]]
from = 2026-11-25T06:00:00
to = 2026-11-25T18:00:00
sky = "partly cloudy"
gust = "20 mph"
high = "30 F"
[[span]]
from = "2026-11-25T18:00"
to = "2026-11-26T07:00"
wind = "20 m/s"
snow = "4 in"
[[span]]
day = 2026-11-26
hail = true
"""
CSV = "from,to,sky,gust,snow,thunder\n2026-11-25T06:00,2026-11-25T18:00,clear,45 kt,,yes\n2026-11-25T18:00,2026-11-26T07:00,,,10 cm,\n"


def read(tmp_path, text, name="told.toml"):
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    return read_forecast_file(path, NOW)


def test_toml(tmp_path) -> None:
    found = read(tmp_path, TOML)
    day, night, after = found.spans
    assert (day.from_h, day.to_h, day.sky, day.gust_m_s) == (6.0, 18.0, "broken", pytest.approx(8.9408))  # fmt: skip
    assert (night.from_h, night.to_h, night.gust_m_s, night.from_wind) == (18.0, 31.0, 30.0, True)
    assert (after.from_h, after.to_h, after.hail, after.thunder) == (24.0, 55.0, True, True)
    assert found.age_h == pytest.approx(2.17, abs=0.01)


def test_csv(tmp_path) -> None:
    day, night = read(tmp_path, CSV, "told.csv").spans
    assert (day.gust_m_s, day.thunder, day.snow_m) == (pytest.approx(23.15), True, None)
    assert night.snow_m == pytest.approx(0.1)


def test_days_gone_by_are_told(tmp_path) -> None:
    found = read(tmp_path, '[[span]]\nday = 2026-11-20\ngust = "20 mph"\n')
    assert "days gone by" in found.notes[0]


@pytest.mark.parametrize(
    "text",
    [
        "", "made = 3\n", "[[span]]\nday = 2026-11-25\ngust = 45\n", '[[span]]\nday = 2026-11-25\ngust = "450 mph"\n', '[[span]]\ngust = "20 mph"\n',
        '[[span]]\nfrom = 2026-11-25T18:00:00\nto = 2026-11-25T06:00:00\n', '[[span]]\nday = 2026-11-25\nsky = "purple"\n', '[[span]]\nday = 2026-11-25\nstorm = true\n',
        'span = 3\n', '[[span]]\nday = 2026-11-25\nhail = "maybe"\n', "[[[", '[[span]]\nday = 2026-11-25\nsnow = "9 m"\n',
    ],
)  # fmt: skip
def test_what_is_wrong_is_told(tmp_path, text) -> None:
    with pytest.raises(Wrong):
        read(tmp_path, text)


def test_everything_wrong_is_told_at_once(tmp_path) -> None:
    with pytest.raises(Wrong) as wrong:
        read(tmp_path, '[[span]]\nday = 2026-11-25\ngust = 45\nsky = "purple"\n[[span]]\nlow = "900 F"\n')  # fmt: skip
    assert len(wrong.value.problems) == 4


def test_a_file_that_is_none(tmp_path) -> None:
    for path in (tmp_path, tmp_path / "none.toml"):
        with pytest.raises(Wrong):
            read_forecast_file(path, NOW)
    big = tmp_path / "big.csv"
    big.write_bytes(b" " * 300_000)
    with pytest.raises(Wrong):
        read_forecast_file(big, NOW)
