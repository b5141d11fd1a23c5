"""The gust of the coming night beside what a tilt stands to, where a forecast was heard."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.quantity import in_unit
from polestead.base.show import Style, gust_step
from polestead.morning.card import unit_of, up, up_m_s


@dataclass(frozen=True, slots=True)
class TonightGust:
    """What the morning took for the night.

    Attributes:
        told_m_s: As forecast.
        upper_m_s: What it may be, with the owner's chance.
    """

    told_m_s: float
    upper_m_s: float

    def passes(self, stands_to_m_s: float, style: Style) -> bool:
        """Whether it may blow harder than what is stood to, both as shown."""
        return up(self.upper_m_s, style) > gust_step(stands_to_m_s, style)

    def shown_m_s(self, style: Style) -> float:
        """The upper gust as it is shown, rounded up."""
        return up_m_s(self.upper_m_s, style)

    def span(self, style: Style) -> str:
        """From what is told to what it may be."""
        return f"{in_unit(self.told_m_s, unit_of(style)):.0f} to {up(self.upper_m_s, style):.0f} {unit_of(style)}"


def tonight_words(stands_to_m_s: float, tonight: TonightGust, style: Style) -> str:
    """What is in hand, or by how much it may be over; what is stood to rounded down, the gust rounded up.

    Example:
        >>> tonight_words(31.3, TonightGust(18.0, 25.0), "feet")
        'Tonight 40 to 56 mph is told: 14 in hand.'
        >>> tonight_words(22.4, TonightGust(18.0, 25.0), "feet")
        'Tonight 40 to 56 mph is told: over by up to 6. The morning says where to leave it.'
    """
    room = gust_step(stands_to_m_s, style) - up(tonight.upper_m_s, style)
    said = f"Tonight {tonight.span(style)} is told"
    if room >= 0.0:
        return f"{said}: {room:.0f} in hand."
    return f"{said}: over by up to {-room:.0f}. The morning says where to leave it."
