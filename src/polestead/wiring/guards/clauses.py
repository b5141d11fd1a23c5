"""Which clause asks for a thing, by the code that holds at the place."""

from __future__ import annotations

from polestead.base.source import Source
from polestead.wiring.currents import Code

_WORK: dict[Code, str] = {"NEC": "NEC", "Canada": "CSA C22.1", "IEC": "IEC 60364-7-712"}
# Rule numbers move between editions; where only the section is known for certain, only the section is named.
_PLACE: dict[str, dict[Code, str]] = {
    "string fuse": {
        "NEC": "690.9(A)",
        "Canada": "section 64, overcurrent protection",
        "IEC": "712.43",
    },
    "switch": {"NEC": "690.13 and 690.15", "Canada": "section 64, disconnecting means", "IEC": "712.53"},
    "breaker": {"NEC": "690.9 and 110.9", "Canada": "section 64; 14-012 for what it must break", "IEC": "712.43"},
    "battery breaker": {"NEC": "690.9 and 706.31", "Canada": "section 64, storage batteries", "IEC": "712.43"},
    "wire in the house": {"NEC": "690.31(D), before 2020 690.31(G); 338.12(B)", "Canada": "64-210 and section 12: ask", "IEC": "712.52"},
    "box": {"NEC": "314.15 and 300.6, wet; 690.31", "Canada": "section 12, boxes, and section 64: ask", "IEC": "712.51, degree of protection"},
    "arc fault": {"NEC": "690.11", "Canada": "64-216", "IEC": "no such clause; IEC 63027 where it is wished for"},
    "rapid shutdown": {"NEC": "690.12", "Canada": "64-218", "IEC": "no such clause"},
    "ground fault": {"NEC": "690.41(B)", "Canada": "section 64, ground-fault protection", "IEC": "712.42, insulation watched"},
    "surge": {"NEC": "article 242", "Canada": "none asked; the maker's sheet", "IEC": "712.53, with IEC 61643-31 and -32"},
    "electrode": {"NEC": "690.47, 250.52(A)(3), 250.66", "Canada": "section 10, grounding electrodes", "IEC": "712.54"},
    "label of the array": {"NEC": "690.7(D), before 2020 690.53", "Canada": "section 64, marking", "IEC": "712.514"},
    "label of the switch": {"NEC": "690.13(B)", "Canada": "section 64, marking", "IEC": "712.514"},
    "label of the pipe": {"NEC": "690.31(D)(2)", "Canada": "section 64, marking", "IEC": "712.514"},
    "label of the battery": {"NEC": "706.15(C), before 2020 480.7(D)", "Canada": "section 64, marking", "IEC": "IEC 62485-2"},
    "label of the house": {"NEC": "710.10 and 690.56", "Canada": "section 64, marking", "IEC": "712.514"},
    "label of shutdown": {"NEC": "690.12(D), before 2023 690.56(C)", "Canada": "64-218", "IEC": "no such clause"},
    "neutral bond": {"NEC": "250.30 and 710.15", "Canada": "section 10, bonding", "IEC": "IEC 60364-5-551"},
    "back-feed": {"NEC": "702.5", "Canada": "section 28 and 84, transfer equipment", "IEC": "IEC 60364-5-551"},
    "main fuse": {"NEC": "240.21(H), 706.31 and 110.9", "Canada": "section 64, storage batteries", "IEC": "IEC 62485-2"},
    "inverter": {"NEC": "690.8(A), input of an inverter that stands alone", "Canada": "section 64, inverters", "IEC": "IEC 60364-4-43"},
}  # fmt: skip
_BARE = ("IEC 60364-4", "IEC 60364-5", "IEC 62485")


def clause(thing: str, code: Code) -> Source:
    """The clause that asks for it.

    Args:
        thing: What is asked for, a key of this table.
        code: That holds at the place.

    Example:
        >>> str(clause("switch", "NEC")), str(clause("main fuse", "IEC"))
        ('NEC, 690.13 and 690.15 (from memory)', 'IEC 62485-2 (from memory)')
    """
    place = _PLACE[thing][code]
    if place.startswith(_BARE):
        return Source(place, status="memory")
    return Source(_WORK[code], place, "memory")
