"""The picture of a view and the bars of its day."""

from __future__ import annotations

import re
from xml.etree import ElementTree as ET

import pytest

from polestead.answer.views import DRAWN, views_of
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import read_homestead
from polestead.sheets.svg import SCREEN
from polestead.sheets.view import (
    clear_minutes,
    clear_sentence,
    day_bars,
    lost_minutes,
    view_picture,
)
from tests.sheets.boxes import outside, overlaps


def views(name: str):  # type: ignore[no-untyped-def]
    return views_of(read_homestead(demo_path(name)).homestead)


@pytest.mark.parametrize("name", demo_names())
@pytest.mark.parametrize("width", [802.0, 720.0, 358.0])
def test_no_words_stand_on_one_another_or_leave_the_field(name: str, width: float) -> None:
    picture = view_picture(views(name)[0], "feet", SCREEN, width)
    assert overlaps(picture, SCREEN) == []
    assert outside(picture, SCREEN) == []


@pytest.mark.parametrize("name", demo_names())
def test_what_the_sentence_says_adds_up(name: str) -> None:
    day = views(name)[0].days[0]
    said = clear_sentence(day)
    clear, whole = re.findall(r"clear (.+?) of (.+?)\.", said)[0]
    minutes = [sum(int(n) * k for n, k in zip(re.findall(r"\d+", words), (60, 1), strict=False)) for words in (clear, whole)]  # fmt: skip
    assert minutes[0] + sum(map(lost_minutes, day.lost)) == minutes[1]
    assert clear_minutes(day) == minutes[0]


def test_the_hours_of_a_metric_file_run_to_twenty_four() -> None:
    one = views("slieve-moss")[0]
    words = [node.text for node in ET.fromstring(view_picture(one, "metric", SCREEN)).iter("{http://www.w3.org/2000/svg}text")]  # noqa: S314  our own  # fmt: skip
    assert "14" in words
    assert "lost 8:55 to 9:40" in words


def test_every_spot_has_its_bar_and_its_hours() -> None:
    shown = [(one.spot, one.days[0]) for one in views("hollow-spruce")]
    assert shown[0][0] == DRAWN
    picture = day_bars([*shown, ("the garden", shown[0][1])], "feet", SCREEN)
    assert picture.count("5 h 30") >= 2
    assert "the garden: clear 5 h 30" in picture
