"""Whose clause a figure of the drive's wire and fuse stands by, in each code; a borrowed one says so."""

from __future__ import annotations

from polestead.base.source import Source
from polestead.wiring.by_code import borrowed
from polestead.wiring.currents import Code

_NEC: dict[str, Source] = {
    "motor wire": Source("NEC", "430.22, 125 % of the motor's current", "memory"),
    "motor fuse": Source("NEC", "Table 430.52, DC motor, time-delay fuse 150 %, next size up", "memory"),
    "terminals": Source("NEC", "110.14(C)(1)(a), 60 C column; Table 310.15(B)(1) at 45 C", "memory"),
    "protects": Source("NEC", "240.4(D) and the wire's ampacity; 240.4(G) would allow more, ours does not", "memory"),
    "fuse times": Source("UL 248-14", "200 % within 2 min to 30 A, 4 min to 60 A (seen); time-delay holds 12 s at 200 %", "memory"),
    "in sight": Source("NEC", "430.102(B), disconnect in sight of the motor", "memory"),
    "battery fuse": Source("NEC", "240.21(H), overcurrent protection close to the battery", "memory"),
}  # fmt: skip
# Where another code has a clause or a table of its own; what is not here is borrowed.
_OWN: dict[str, dict[Code, Source]] = {
    "motor wire": {"IEC": Source("IEC 60364-4-43", "433.1, no less than the current; the 1.25 over it is ours", "memory")},
    "terminals": {"IEC": Source("IEC 60364-5-52:2009", "Table B.52.2, B2, PVC 70 C, with B.52.14 at 45 C", "memory")},
    "protects": {
        "Canada": Source("CSA C22.1", "14-104; for small wire figures borrowed from NEC 240.4(D): ask", "memory"),
        "IEC": Source("IEC 60364-4-43", "433.1, with the fusing currents of IEC 60269-1", "memory"),
    },
    "in sight": {
        "Canada": Source("CSA C22.1", "section 28, disconnecting means in sight: ask", "memory"),
        "IEC": Source("IEC 60204-1", "supply isolating device, and hold-to-run control", "memory"),
    },
    "battery fuse": {
        "Canada": Source("CSA C22.1", "section 64, storage batteries: ask", "memory"),
        "IEC": Source("IEC 62485-2", status="memory"),
    },
}  # fmt: skip
_THIN: dict[Code, tuple[float, str]] = {
    "NEC": (3.3, "Older editions of the electrical code want 12 AWG copper at least on circuits under 50 V (Article 720, from memory): ask the inspector."),
    "Canada": (3.3, "Ask the inspector for the thinnest copper of section 16 on so low a voltage: 12 AWG is the figure of older editions of the NEC, borrowed here."),
    "IEC": (1.5, "IEC 60364-5-52, Table 52.2, wants 1.5 mm2 copper at least in fixed cables (from memory): ask the inspector."),
}  # fmt: skip
BORROWED_ASK = (
    "Wire and fuse of the motor stand on figures borrowed from the NEC and UL where that is told beside them: ask the inspector and the makers of motor and fuse "
    "for their own, and read the fuse's curve of time against current."
)


def drive_source(thing: str, code: Code) -> Source:
    """Who says so under the code that holds.

    Args:
        thing: ``motor wire``, ``motor fuse``, ``terminals``, ``protects``, ``fuse times``, ``in sight``, ``battery fuse``.
        code: That holds at the place.

    Example:
        >>> str(drive_source("motor wire", "NEC"))
        "NEC, 430.22, 125 % of the motor's current (from memory)"
        >>> str(drive_source("motor wire", "Canada"))
        "figures borrowed from NEC, 430.22, 125 % of the motor's current: ask (from memory)"
        >>> str(drive_source("battery fuse", "IEC"))
        'IEC 62485-2 (from memory)'
    """
    own = _OWN.get(thing, {}).get(code)
    return borrowed(_NEC[thing], code) if own is None else own


def thin_note(area_mm2: float, code: Code) -> str | None:
    """What to ask of a wire thinner than the code's least, or nothing.

    Args:
        area_mm2: Of the copper.
        code: That holds.

    Example:
        >>> thin_note(5.26, "NEC") is None, (thin_note(2.08, "NEC") or "")[:14]
        (True, 'Older editions')
    """
    least, words = _THIN[code]
    return words if area_mm2 < least else None
