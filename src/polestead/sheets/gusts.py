"""The gust card and the workings behind it, as text."""

from __future__ import annotations

from polestead.base.problem import Problem, Wrong
from polestead.base.show import Style, gust
from polestead.sheets.text import card_lines, heading, say
from polestead.sheets.working import check_lines
from polestead.stand.result import StandResult


def gusts_text(name: str, stand: StandResult, style: Style, part: str | None) -> str:
    """The card, every degree; or the working of the parts whose name holds the given words.

    Raises:
        Wrong: No part of that name; names those there are.
    """
    if part is not None:
        return _working(stand, style, part)
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


def _working(stand: StandResult, style: Style, part: str) -> str:
    checks = (*stand.checks, *stand.geometry_checks)
    words = part.lower().split()
    found = [
        check
        for check in checks
        if all(word in f"{check.part} {check.name}".lower() for word in words)
    ]
    if not found:
        names = ", ".join(dict.fromkeys(check.part for check in checks))
        raise Wrong(
            [Problem("", "--working", part, names, "Name one of these parts, or a word of it.")]
        )
    return "\n\n".join("\n".join(check_lines(check, style)) for check in found)
