"""The gust card in rows, and the wind by eye: one set for the page, the card to hang and the phone."""

from __future__ import annotations

from math import ceil

from polestead.base.quantity import in_unit
from polestead.base.show import Style
from polestead.morning.forecast.by_eye import gust_factor, ladder
from polestead.stand.result import StandResult, TiltStand

# what is seen, force, upper end of its ten-minute mean [m/s]
BY_EYE = tuple((step.card, step.force, step.mean_m_s) for step in ladder() if step.card)
BEAUFORT = ladder()[0].source
SHOWN_TILTS = (15.0, 30.0, 45.0, 60.0)

Row = tuple[str, float, str, float | None]  # words, gust it stands to, gives first, lay flat under


def rows_of(stand: StandResult) -> list[Row]:
    """Flat locked, flat on the rod, steps of 15 degrees, steepest, the prop.

    The last figure is the least on the whole way to flat: from a tilt that bears more it is still the way that decides.
    """
    card = stand.card
    flat, last = card[0], card[-1]
    rows = [_row(f"flat {flat.tilt_deg:g}°, locked", flat)]
    if flat.rod_stands_to_m_s is not None:
        rows.append((f"flat {flat.tilt_deg:g}°, rod alone", flat.rod_stands_to_m_s, flat.rod_gives_first, flat.path_under_m_s))  # fmt: skip
    rows += [_row(f"{row.tilt_deg:g}°", row) for row in card[1:-1] if row.tilt_deg in SHOWN_TILTS]
    rows.append(_row(f"{last.tilt_deg:g}°, steepest", last))
    prop = next((state for state in stand.states if state.state == "prop"), None)
    if prop is not None:  # it is moved by nothing while it lies on the prop
        at = prop.weakest
        rows.append((f"{prop.tilt_deg[at]:g}°, on the prop", prop.gust_m_s[at], prop.gives_first[at], None))  # fmt: skip
    return rows


def _row(words: str, row: TiltStand) -> Row:
    return words, row.stands_to_m_s, row.gives_first, row.path_under_m_s


def eye_gust_m_s(mean_m_s: float, exposure: str) -> float:
    """Gust that may come with a mean wind seen by eye.

    Args:
        mean_m_s: Upper end of the step [m/s].
        exposure: Of the place.

    Example:
        >>> round(eye_gust_m_s(7.9, "C"), 2)
        11.85
    """
    return mean_m_s * gust_factor(exposure)


def eye_ladder(exposure: str) -> dict[str, float]:
    """What is seen, and the gust that may come with it [m/s].

    Args:
        exposure: Of the place.
    """
    return {words: eye_gust_m_s(mean, exposure) for words, _, mean in BY_EYE}


def force_ladder(exposure: str) -> dict[int, float]:
    """Force of the wind scale, and the gust that may come with it [m/s].

    Args:
        exposure: Of the place.
    """
    return {step.force: eye_gust_m_s(step.mean_m_s, exposure) for step in ladder()}


def eye_words(speed_m_s: float, style: Style) -> str:
    """A gust one may meet, rounded UP: it is set against what the array stands to.

    Example:
        >>> eye_words(11.85, "feet"), eye_words(11.85, "metric")
        ('30', '12')
    """
    step, value = (5.0, in_unit(speed_m_s, "mph")) if style == "feet" else (2.0, speed_m_s)
    return f"{step * ceil(value / step - 1e-9):.0f}"
