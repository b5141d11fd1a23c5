"""A figure and its unit stay on one line: the blank between them does not break."""

from __future__ import annotations

import re

# What is sent back as it stands, or wraps by nobody's hand: no blank is touched in these.
_KEPT = "textarea|option|svg|script|style|pre|code|title"
_TAGS = re.compile(rf"(<({_KEPT})\b.*?</\2>|<[^>]*>)", re.DOTALL)
_UNITS = "ft|in|yd|miles?|lbf?|psf|psi|ksi|mph|kt|gal|AWG|mm|cm|km|m|kg|kN|N|kPa|MPa|Pa|kWh|Wh|kW|W|Ah|V|A|F|C|h|min|s|l|deg|USD|EUR"
_PARTED = re.compile(
    rf"(?<=\d) (?=(?:(?:{_UNITS})(?![\w'’])|%))"  # 33 h, 54 %
    r"|(?<=\d) (?=\d{1,2}/\d{1,2} in\b)"  # 31 7/8 in
    r"|(?<=\d ft) (?=\d)"  # 12 ft 6 in
    r"|(?<=\d\xa0ft) (?=\d)"
)
BLANK = "\xa0"


def unparted(html: str) -> str:
    """A page with such blanks; what stands in fields and drawings is left as it is.

    Args:
        html: Of a whole page or a part of one.

    Example:
        >>> unparted('<p title="5 ft">12 ft 6 in, 31 7/8 in, 54 % of 33 h</p><textarea>5 ft</textarea>').count(BLANK)
        7
        >>> unparted('<input value="5 ft"><option>8 in pipe</option>')
        '<input value="5 ft"><option>8 in pipe</option>'
    """
    pieces = _TAGS.split(html)  # words, a tag, the name of what is kept, words, and so on
    return "".join(
        _PARTED.sub(BLANK, piece) if nth % 3 == 0 else piece
        for nth, piece in enumerate(pieces)
        if nth % 3 != 2
    )
