"""Does it stand: the yes names what it is yes for, and no face says another thing than the next."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from polestead.answer.answer import Answer
from polestead.base.show import Style, asked_step, gust, gust_step
from polestead.sheets.data import answer_data
from polestead.sheets.sentences import three_answers
from polestead.sheets.text import answer_text
from polestead.sheets.title_block import MOST, title_block
from polestead.sheets.verdict import against_the_code, least
from tests.answers import worked

NAMES = ("hollow-spruce", "cinder-mesa", "slieve-moss")


def facing(answer: Answer, code_m_s: float) -> Answer:
    """The same homestead under another code's wind."""
    return replace(answer, stand=replace(answer.stand, code_gust_m_s=code_m_s))


@pytest.mark.parametrize("style", ["feet", "metric"])
@pytest.mark.parametrize("name", NAMES)
def test_the_yes_names_the_gust_and_a_code_s_wind_over_it_is_said_in_the_same_breath(name: str, style: Style) -> None:  # fmt: skip
    answer = worked(name)
    for code_m_s in (5.0, answer.stand.code_gust_m_s, answer.stand.first_gives_m_s + 3.0, 90.0):
        here = facing(answer, code_m_s)
        stand = here.stand
        cell, said = title_block(here, style)[0], three_answers(here, style)[0]
        over = asked_step(code_m_s, style) > gust_step(stand.first_gives_m_s, style)
        for words in (cell.answer, said.answer):
            assert gust(stand.first_gives_m_s, style) in words
            assert (f" at {stand.first_gives_tilt_deg:.0f}°" in words) is over
        for words in (cell.beside[0], said.beside[0]):
            assert ("less than the code's wind" in words) is over
            assert ("which covers the code's wind" in words) is not over
        assert len(cell.answer) <= MOST


def test_the_storm_told_of_is_one_that_laid_flat_it_stands_to() -> None:
    answer = worked("hollow-spruce")
    stand = answer.stand
    flat = next(one for one in stand.stances if one.name == "storm flat").stands_to_m_s
    weak = stand.first_gives_m_s
    assert weak < flat
    bears = against_the_code(weak, facing(answer, (weak + flat) / 2.0).stand, "metric")
    short = against_the_code(weak, facing(answer, flat + 10.0).stand, "metric")
    no_more = against_the_code(flat, facing(answer, flat + 10.0).stand, "metric")
    assert bears.endswith(f"({gust(flat, 'metric')} there)")
    assert short.endswith(f"even there {gust(flat, 'metric')} is all")
    assert "lay it flat" not in no_more


@pytest.mark.parametrize("name", NAMES)
def test_one_wording_on_every_face(name: str) -> None:
    answer = worked(name)
    style = answer.units
    cell, told = title_block(answer, style)[0], answer_data(answer)["said"][0]
    terminal = re.sub(r"\s+", " ", answer_text(answer, style))
    assert told["answer"] == f"{cell.answer}."
    assert cell.beside[0] == least(answer.stand, style)
    assert f"{told['answer']} {told['beside'][0]}" in terminal
    assert told["beside"][0].lower() == f"{cell.beside[0]}.".lower()
