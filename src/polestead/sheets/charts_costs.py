"""What it costs, part by part: solid paid, hatched quoted, outline only planned; what is given back in grey."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.base.show import number
from polestead.money.ledger import Ledger, PartTotal
from polestead.sheets.svg import Ink, drawing, hatch, line, tag, text

LEFT, RIGHT, TOP, ROW = 172.0, 56.0, 34.0, 26.0
NARROW = 560.0
GIVEN_BACK = 6.2  # letters wide: the words behind such a bar


def costs_chart(
    ledger: Ledger, currency: str, ink: Ink, width: float = 760.0, size: float = 13.0
) -> str:
    """One bar a part, in the order of the work; a grant has its own, which the sum takes off.

    Args:
        ledger: As added up.
        currency: Of the owner.
        ink: Of the medium.
        width: Of the picture [px]; no less than 358.
        size: Of the letters [px].
    """
    parts = [part for part in ledger.parts if abs(part.total) > 0.0]
    back = any(part.total < 0.0 for part in parts)
    room = width - LEFT - RIGHT
    beside = room / (room - size * GIVEN_BACK)
    most = max((abs(part.total) * (beside if part.total < 0.0 else 1.0) for part in parts), default=1.0)  # fmt: skip
    given_back = ", grey given back" if back else ""
    legend = (f"{currency}, by part; solid paid, hatched quoted,", f"outline only planned{given_back}")  # fmt: skip
    in_two = width < NARROW or LEFT + len(" ".join(legend)) * size * ink.letter > width
    top = TOP + 15.0 if in_two else TOP
    if in_two:  # from the left edge
        body = [text((2.0, 12.0 + 15.0 * nth), words, ink.pencil, ink.face, size) for nth, words in enumerate(legend)]  # fmt: skip
    else:
        body = [text((LEFT, 16.0), " ".join(legend), ink.pencil, ink.face, size)]
    for nth, part in enumerate(parts):
        body += _bar(part, top + nth * ROW, most, ink, width, size)
    base = top + len(parts) * ROW
    body.append(line((LEFT, top - 6.0), (LEFT, base), ink.ink, 2.5))
    body.append(text((LEFT, base + 18.0), f"in all {number(ledger.total)}", ink.ink, ink.face, size, weight="600"))  # fmt: skip
    words = "; ".join(f"{part.part}: {_amount(part)}" for part in parts)
    return drawing(width, base + 28.0, hatch("quoted", ink.ink, 5.0, 45.0) + (hatch("quoted-back", ink.pencil, 5.0, 45.0) if back else ""), body, "Costs by part", f"{words or 'nothing is priced yet'}; in all {number(ledger.total)} {currency}")  # fmt: skip


def _bar(
    part: PartTotal, y: float, most: float, ink: Ink, width: float, size: float
) -> Iterator[str]:
    yield text((LEFT - 10.0, y + 14.0), part.part, ink.ink, ink.face, size, "end")
    back = part.total < 0.0
    colour, hatched, sign = (ink.pencil, "url(#quoted-back)", -1.0) if back else (ink.ink, "url(#quoted)", 1.0)  # fmt: skip
    x, scale = LEFT, (width - LEFT - RIGHT) / most
    for amount, fill in ((part.paid, colour), (part.quoted, hatched), (part.planned, "none")):
        wide = max(sign * amount, 0.0) * scale
        if wide > 0.0:
            yield tag("rect", x=x, y=y + 2.0, width=wide, height=15.0, fill=fill)
            yield tag("rect", x=x, y=y + 2.0, width=wide, height=15.0, fill="none", stroke=colour, stroke_width=1.2, stroke_dasharray="4 3" if back else None)  # fmt: skip
        x += wide
    yield text((x + 8.0, y + 14.0), _amount(part), colour, ink.face, size)


def _amount(part: PartTotal) -> str:
    return f"{number(part.total)} given back" if part.total < 0.0 else number(part.total)
