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
from polestead.site.files_in import weather_file
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
    with pytest.raises(Wrong, match="8759 hours"):
        read(epw(tmp_path, drop=1))
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
    typical = weather_file(file, year, 55.3, -160.5)
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
    weather = weather_file(path, working_year(7), 55.3, -160.5)
    daily = weather.global_w_m2[0].reshape(365, 24)
    assert 1.5 < daily.sum() / 365 / 1000 < 3.5  # Sand Point AK
    noon = daily.mean(axis=0)
    centre = (noon * (np.arange(24) + 0.5)).sum() / noon.sum()
    assert centre == pytest.approx(
        12.0 + (160.5 - 135.0) / 15.0, abs=0.4
    )  # the middle of the light is at the sun's noon
