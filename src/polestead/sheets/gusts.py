"""The gust card and the workings behind it, as text."""

from __future__ import annotations

from polestead.base.show import Style, gust
from polestead.sheets.text import card_lines, heading, say
from polestead.sheets.workings import of_stand, printed
from polestead.stand.result import StandResult


def gusts_text(name: str, stand: StandResult, style: Style, part: str | None) -> str:
    """The card, every degree; or the working of the parts whose name holds the given words.

    Raises:
        Wrong: No part of that name; names those there are.
    """
    if part is not None:
        return printed(of_stand(stand), part, style)
    lines = [f"{name}: gust card", ""]
    lines += card_lines(stand, style, range(91))
    lines += [
        "",
        say(f"The code's own wind on the same scale: {gust(stand.code_gust_m_s, style)}."),
    ]
    lines += [
        heading("What stands beside it"),
        *(say(note, "  * ", "    ") for note in stand.notes),
    ]
    lines += ["  It relies on:", *(say(relied, "  * ", "    ") for relied in stand.relied_on)]
    lines += [
        "",
        "Screening sums, not a stamped design. --working PART shows how a part was found.",
    ]
    return "\n".join(lines)
