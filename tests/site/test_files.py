"""Weather files, written by the tests themselves."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from polestead.base.hours import working_year
from polestead.base.problem import Wrong
from polestead.homestead.demos import demo_path
from polestead.homestead.model import Climate
from polestead.homestead.read import read_homestead
from polestead.site.files_in import learned_days, weather_file
from polestead.site.place import weather_of
from polestead.site.sunpath import sun_path

HEAD = (
    "LOCATION,Nowhere,MN,USA,own,000000,47.90,-91.40,-6.0,503.0\n"
    "DESIGN CONDITIONS,0\nTYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\nHOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\n"
    "COMMENTS 1,own\nCOMMENTS 2,own\nDATA PERIODS,1,1,Data,Sunday,1/1,12/31\n"
)


def epw(
    folder: Path,
    change: dict[int, dict[str, float]] | None = None,
    leap: bool = False,
    drop: int = 0,
) -> Path:
    """A file whose global light tells the hour of the year it belongs to."""
    days = pd.date_range(
        "2024-01-01" if leap else "2023-01-01", periods=366 * 24 if leap else 8760, freq="h"
    )
    lines = []
    for nth, stamp in enumerate(days[: len(days) - drop]):
        values = {
            "air": -10.0 + stamp.hour / 10,
            "ghi": float(stamp.hour * 10 + stamp.month),
            "dni": 1.0,
            "dhi": 2.0,
        }
        values |= (change or {}).get(nth, {})
        row = [
            stamp.year,
            stamp.month,
            stamp.day,
            stamp.hour + 1,
            60,
            "x",
            values["air"],
            -12,
            80,
            95000,
            0,
            0,
            300,
        ]
        row += [values["ghi"], values["dni"], values["dhi"], *([0] * 19)]
        lines.append(",".join(str(value) for value in row))
    path = folder / "own.epw"
    path.write_text(HEAD + "\n".join(lines) + "\n")
    return path


def read(path: Path):
    return weather_file(path, working_year(7), 47.9, -91.4)


def test_an_epw_is_turned_to_the_working_year_hour_by_hour(tmp_path: Path) -> None:
    year, weather = working_year(7), read(epw(tmp_path))
    assert weather.global_w_m2.shape == (1, 8760)
    assert (weather.global_w_m2[0] == year.hour * 10 + year.month).all()
    assert weather.kind == "typical year"
    assert any("no good and no bad winter" in note for note in weather.notes)


def test_a_leap_day_is_left_out(tmp_path: Path) -> None:
    assert read(epw(tmp_path, leap=True)).global_w_m2.shape == (1, 8760)


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({5: {"ghi": 2000.0}}, "ghi"),
        ({5: {"air": 99.5}}, "70 C"),
        ({5: {"dni": -50.0}}, "dni"),
        ({5: {"dhi": 1200.0}}, "dhi"),
    ],
)
def test_values_that_cannot_be_are_refused(
    tmp_path: Path, change: dict[int, dict[str, float]], word: str
) -> None:
    with pytest.raises(Wrong, match=word):
        read(epw(tmp_path, change))


def test_a_little_less_than_nothing_is_taken_as_nothing_and_told(tmp_path: Path) -> None:
    weather = read(epw(tmp_path, {5: {"ghi": -3.0}}))
    assert weather.global_w_m2.min() == 0.0
    assert any("less than no light" in note for note in weather.notes)


def test_missing_hours_a_missing_file_and_a_strange_one_are_told(tmp_path: Path) -> None:
    with pytest.raises(Wrong, match="8750 hours"):
        read(epw(tmp_path, drop=10))
    with pytest.raises(Wrong, match="no such file"):
        read(tmp_path / "none.epw")
    (tmp_path / "strange.csv").write_text("hello\n")
    with pytest.raises(Wrong, match="not readable"):
        read(tmp_path / "strange.csv")


def test_a_file_of_another_place_is_told(tmp_path: Path) -> None:
    weather = weather_file(epw(tmp_path), working_year(7), 35.0, -104.0)
    assert any("not this place" in note for note in weather.notes)


def test_years_are_drawn_about_the_months_of_the_file_the_homestead_names() -> None:
    import pvlib

    file = Path(pvlib.__file__).parent / "data" / "703165TY.csv"
    if not file.exists():
        pytest.skip("the library no longer ships its example year")
    place = read_homestead(demo_path("hollow-spruce")).homestead.place.model_copy(
        update={"latitude_deg": 55.3, "longitude_deg": -160.5, "clock_offset_hours": -9.0}
    )
    path, year = sun_path(55.3, -160.5, 7.0, -9.0), working_year(7)
    drawn = weather_of(place, Climate(source="file", file=file.name), path, file.parent, 150)
    typical = weather_file(file, year, 55.3, -160.5, -9.0)
    assert drawn.global_w_m2.shape == (150, 8760)
    assert drawn.source == typical.source
    for month in range(1, 13):
        hours = year.month == month
        assert drawn.global_w_m2[:, hours].mean() == pytest.approx(
            typical.global_w_m2[0, hours].mean(), rel=0.04
        )
        assert drawn.air_c[:, hours].mean() == pytest.approx(
            typical.air_c[0, hours].mean(), abs=0.6
        )


def test_a_tmy3_that_a_library_ships_is_read() -> None:
    import pvlib

    path = Path(pvlib.__file__).parent / "data" / "703165TY.csv"
    if not path.exists():
        pytest.skip("the library no longer ships its example year")
    weather = weather_file(path, working_year(7), 55.3, -160.5, -9.0)
    daily = weather.global_w_m2[0].reshape(365, 24)
    assert 1.5 < daily.sum() / 365 / 1000 < 3.5  # Sand Point AK
    noon = daily.mean(axis=0)
    centre = (noon * (np.arange(24) + 0.5)).sum() / noon.sum()
    assert centre == pytest.approx(
        12.0 + (160.5 - 135.0) / 15.0, abs=0.4
    )  # the middle of the light is at the sun's noon


# -- one invented sky, written the way each kind of file writes it ------------------------------------------------------
PATH = sun_path(47.9, -91.4, 503.0, -6.0)


def sky(years: int = 1, seed: int = 1) -> pd.DataFrame:
    """Hourly light and air from January, in UTC-6, of an invented sky."""
    year = working_year(7)
    rng = np.random.default_rng(seed)
    outside = np.roll(PATH.extra_flat_w_m2, 8760 - int(np.flatnonzero(year.day_of_year == 1)[0]))
    clear = np.clip(rng.normal(0.5, 0.17, (years, 365)), 0.08, 0.75).repeat(24, axis=1)
    total = (clear * outside).ravel()
    frame = pd.DataFrame({"ghi": total, "dhi": 0.4 * total, "dni": 0.7 * total})
    frame["air"] = 5.0 - 15.0 * np.cos(2.0 * np.pi * np.tile(np.arange(8760), years) / 8760.0)
    index = pd.date_range("2001-01-01", f"{2000 + years}-12-31 23:00", freq="h")
    frame.index = index[~((index.month == 2) & (index.day == 29))]
    return frame.round(2)


def nsrdb(
    folder: Path, frame: pd.DataFrame, minute: int = 30, zone: int = -6, longitude: float = -91.4
) -> Path:
    rows = [
        f"{t.year},{t.month},{t.day},{t.hour},{minute},{row.air},{row.ghi},{row.dni},{row.dhi}"
        for t, row in zip(frame.index, frame.itertuples(), strict=True)
    ]
    head = (
        "Source,Location ID,City,State,Country,Latitude,Longitude,Time Zone,Elevation,Local Time Zone\n"
        f"own,1,-,-,-,47.9,{longitude},{zone},503,{zone}\n"
        "Year,Month,Day,Hour,Minute,Temperature,GHI,DNI,DHI\n"
    )
    path = folder / "record.csv"
    path.write_text(head + "\n".join(rows) + "\n")
    return path


def pvgis(folder: Path, frame: pd.DataFrame, slope: int = 0) -> Path:
    moved = frame.set_axis(frame.index + pd.Timedelta(hours=6))  # in UTC
    rows = [
        f"{t:%Y%m%d:%H}10,{row.ghi - row.dhi:.2f},{row.dhi},0.0,20.0,{row.air},2.0,0.0"
        for t, row in zip(moved.index, moved.itertuples(), strict=True)
    ]
    head = (
        "Latitude (decimal degrees):\t47.900\nLongitude (decimal degrees):\t-91.400\nElevation (m):\t503\n"
        f"Radiation database:\town\n\n\nSlope: {slope} deg. (optimum at none)\nAzimuth: 0 deg.\n\n"
        "time,Gb(i),Gd(i),Gr(i),H_sun,T2m,WS10m,Int\n"
    )
    path = folder / "series.csv"
    path.write_text(head + "\n".join(rows) + "\n\nGb(i): own\nInt: own\n")
    return path


def record(path: Path, **more: object):
    return weather_file(path, working_year(7), 47.9, -91.4, -6.0, 503.0, PATH, **more)


def test_a_record_becomes_whole_working_years_in_their_order(tmp_path: Path) -> None:
    frame = sky(3)
    weather = record(nsrdb(tmp_path, frame))
    assert weather.kind == "measured years"
    assert weather.global_w_m2.shape == (2, 8760)
    july = frame.loc["2001-07-01":"2002-06-30"]
    np.testing.assert_allclose(weather.global_w_m2[0], july["ghi"], atol=0.01)
    np.testing.assert_allclose(weather.air_c[0], july["air"], atol=0.01)
    assert any("minute 30" in note for note in weather.notes)
    assert any("too few for a good and a bad one" in note for note in weather.notes)


def test_a_long_record_runs_as_it_is(tmp_path: Path) -> None:
    path = nsrdb(tmp_path, sky(11))
    place = read_homestead(demo_path("hollow-spruce")).homestead.place
    weather = weather_of(place, Climate(source="file", file=path.name), PATH, tmp_path, 100)
    assert weather.kind == "measured years"
    assert weather.years == 10
    assert weather.winter_error == 0.0
    assert any("10 measured years run as they are" in note for note in weather.notes)


def test_a_short_record_gives_its_months_and_the_spread_of_its_days(tmp_path: Path) -> None:
    path = nsrdb(tmp_path, sky(4))
    place = read_homestead(demo_path("hollow-spruce")).homestead.place
    weather = weather_of(place, Climate(source="file", file=path.name), PATH, tmp_path, 30)
    assert weather.kind == "synthetic"
    assert weather.years == 30
    learned = learned_days(record(path), PATH, working_year(7))
    assert learned.sd_by_month[6] == pytest.approx(0.17, abs=0.02)
    assert (
        learned.memory < 0.2
    )  # the invented sky has none; a good deal of ours is left by so few days
    few = learned_days(record(nsrdb(tmp_path, sky(1))), PATH, working_year(7))
    assert abs(few.memory - 0.33) < abs(learned.memory - 0.33)


def test_a_series_in_utc_comes_to_the_homesteads_clock(tmp_path: Path) -> None:
    frame = sky(3)
    weather = record(pvgis(tmp_path, frame))
    july = frame.loc["2001-07-01":"2002-06-30"]
    assert weather.years == 2
    np.testing.assert_allclose(weather.global_w_m2[0], july["ghi"], atol=0.02)
    assert any("UTC" in note for note in weather.notes)
    assert any("Erbs" in note for note in weather.notes)


def test_light_on_a_slanting_plane_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Wrong, match="plane of 35 degrees"):
        record(pvgis(tmp_path, sky(1), slope=35))


def test_half_hours_become_hours(tmp_path: Path) -> None:
    frame = sky(1)
    early = nsrdb(tmp_path, frame, minute=0).read_text().splitlines()
    late = nsrdb(tmp_path, frame, minute=30).read_text().splitlines()[3:]
    rows = [line for pair in zip(early[3:], late, strict=True) for line in pair]
    path = tmp_path / "half.csv"
    path.write_text("\n".join(early[:3] + rows) + "\n")
    weather = record(path)
    assert any("every 30 minutes" in note for note in weather.notes)
    np.testing.assert_allclose(np.sort(weather.global_w_m2[0]), np.sort(frame["ghi"]), atol=0.02)


def test_a_zone_that_does_not_go_with_the_longitude_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Wrong, match="off the sun at its own longitude"):
        record(nsrdb(tmp_path, sky(1), longitude=91.4))


def test_another_clock_is_set_right_and_told(tmp_path: Path) -> None:
    frame = sky(1)
    moved = frame.set_axis(frame.index)
    weather = weather_file(nsrdb(tmp_path, moved, zone=-7), working_year(7), 47.9, -91.4, -6.0, 503.0, PATH)  # fmt: skip
    assert any("moved by +1 h" in note for note in weather.notes)
    assert any("goes best with the sun when moved by -1 h" in note for note in weather.notes)


def test_a_small_gap_is_filled_and_a_large_one_refused_with_its_date(tmp_path: Path) -> None:
    frame = sky(1)
    small = frame.drop(frame.index[4000:4002])
    weather = record(nsrdb(tmp_path, small))
    assert any("2 hours of ghi missing" in note for note in weather.notes)
    with pytest.raises(Wrong, match=r"in a row from 16 Jun 16:00") as told:
        record(nsrdb(tmp_path, frame.drop(frame.index[4000:4010])))
    assert "10 of them in a row" in str(told.value)


def test_hours_that_stand_twice_are_refused(tmp_path: Path) -> None:
    frame = sky(1)
    with pytest.raises(Wrong, match="twice"):
        record(nsrdb(tmp_path, pd.concat([frame, frame.iloc[100:102]]).sort_index()))


def test_kilowatts_and_kelvins_are_told_together(tmp_path: Path) -> None:
    frame = sky(1)
    frame[["ghi", "dni", "dhi"]] /= 1000.0
    frame["air"] += 273.15
    with pytest.raises(Wrong) as told:
        record(nsrdb(tmp_path, frame))
    assert len(told.value.problems) == 2


def test_another_height_is_told(tmp_path: Path) -> None:
    weather = weather_file(nsrdb(tmp_path, sky(1)), working_year(7), 47.9, -91.4, -6.0, 1600.0, PATH)  # fmt: skip
    assert any("1600 m" in note for note in weather.notes)


@pytest.mark.parametrize(
    "content",
    [b"", b"\x00\xff\x00binary", b"LOCATION,", b"LOCATION,a,b\n1,2,3\n", "Latitude (decimal degrees): x\n".encode("utf-16"), b"Source,Location ID\n1\nYear,Month,Day,Hour,Minute\n2001\n", b'{"inputs": 3}'],
)  # fmt: skip
def test_any_broken_file_is_refused_in_a_sentence(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "broken.csv"
    path.write_bytes(content)
    with pytest.raises(Wrong, match=r"broken\.csv"):
        record(path)


def test_a_file_cut_off_in_the_middle_is_refused(tmp_path: Path) -> None:
    text = nsrdb(tmp_path, sky(2)).read_text()
    for part in (0.2, 0.45):
        (tmp_path / "cut.csv").write_text(text[: int(len(text) * part)])
        with pytest.raises(Wrong, match=r"cut\.csv"):
            record(tmp_path / "cut.csv")
