"""Does it stand: the code's check and the gust card told in one breath, in the same words wherever either is read.

The check may hold at every tilt while the card's gust at the weakest one is less than the code's wind on the same scale
(conventions §11, §12): then the yes names the gust it is yes for, and what to do before more.
"""

from __future__ import annotations

from polestead.answer.answer import Answer
from polestead.base.check import Check
from polestead.base.show import Style, asked_step, gust, gust_asked, gust_step
from polestead.stand.result import StandResult

TWO_QUESTIONS = "“Uses” is the code's check, by which it may be built; “stands to” is the whole gust, nothing taken off, by which you leave it out."
STANDS_ON = ("wind_speed", "exposure", "ground_snow", "soil")


def failing(answer: Answer) -> tuple[Check, ...]:
    """Every check that does not hold, strength first, then geometry, then wires."""
    checks = (*answer.stand.checks, *answer.stand.geometry_checks, *answer.wiring.checks)
    return tuple(check for check in checks if not check.holds)


def guesses_it_stands_on(answer: Answer) -> tuple[str, ...]:
    """Facts of the place that carry the verdict and that nobody has confirmed."""
    assumed = {
        row.key for row in answer.rows if row.section == "place" and row.standing == "assumed"
    }
    return tuple(key for key in STANDS_ON if key in assumed)


def reaches_the_code(speed_m_s: float, stand: StandResult, style: Style) -> bool:
    """Whether a stands-to gust has the code's wind in it, both as they are shown (conventions §13)."""
    return gust_step(speed_m_s, style) >= asked_step(stand.code_gust_m_s, style)


def against_the_code(speed_m_s: float, stand: StandResult, style: Style) -> str:
    """What follows a stands-to gust: whether the code's wind is in it, and if not, what to do before such a storm.

    Args:
        speed_m_s: The gust a tilt stands to.
        stand: Whose gust card.
        style: Whose units.
    """
    if reaches_the_code(speed_m_s, stand, style):
        return "which covers the code's wind"
    code = gust_asked(stand.code_gust_m_s, style)
    flat = next(one for one in stand.stances if one.name == "storm flat").stands_to_m_s
    words = f"less than the code's wind, {code}"
    if reaches_the_code(flat, stand, style):
        return f"{words}: lay it flat and lock it before such a storm ({gust(flat, style)} there)"
    if gust_step(flat, style) > gust_step(speed_m_s, style):
        return f"{words}: lay it flat and lock it before such a storm, and even there {gust(flat, style)} is all"
    return f"{words}, and laid flat to no more"


def least(stand: StandResult, style: Style) -> str:
    """What gives first as a gust rises, and how that lies to the code's wind."""
    return (
        f"as a gust rises, first gives: {stand.first_gives}, from {gust(stand.first_gives_m_s, style)} "
        f"at {stand.first_gives_tilt_deg:.0f}°, {against_the_code(stand.first_gives_m_s, stand, style)}"
    )


def yes(answer: Answer, style: Style) -> str:
    """The answer of what stands, short enough for a cell of the title block: what it is yes by, and to which gust."""
    stand = answer.stand
    speed, tilt = gust(stand.first_gives_m_s, style), f"{stand.first_gives_tilt_deg:.0f}°"
    if len(guesses_it_stands_on(answer)) == len(STANDS_ON):  # nothing of the place has been asked
        return f"On guesses yes, to {speed} at {tilt}"
    if reaches_the_code(stand.first_gives_m_s, stand, style):
        return f"Yes by the sums, to {speed}"
    return f"Yes by the sums, to {speed} at {tilt}"
