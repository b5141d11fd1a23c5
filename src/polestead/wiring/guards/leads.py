"""The copper leads on the battery's side: what they carry, which fuse protects them, how thick a fuse wants them."""

from __future__ import annotations

from functools import cache

from polestead.base.source import Source
from polestead.wiring.currents import Code, rating_under_a, standard_rating_a
from polestead.wiring.run.ampacity import (
    NEC_COLUMN,
    TABLE_CANADA,
    TABLE_IEC,
    TERMINALS_C,
    TERMINALS_IEC_60,
    iec_in_air_a,
)
from polestead.wiring.run.conductor import AMPACITY, Conductor, conductor_of, is_metric, sizes

BARE = "60 C"  # what a terminal bears that nobody marked
AT_REST_C = 30.0  # air about the leads, the tables' own
ONE_LEAD_A = 800.0  # NEC 240.4(B) and (C): over it no next standard size up
_TABLE: dict[Code, Source] = {"NEC": AMPACITY, "Canada": TABLE_CANADA, "IEC": TABLE_IEC}
_WHY: dict[Code, str] = {
    "NEC": ", as unmarked ones up to 100 A do by 110.14(C), from memory",
    "Canada": ", as unmarked ones up to 100 A do by rule 4-006, from memory (figures borrowed from NEC Table 310.16: ask)",
    "IEC": "",
}  # fmt: skip


def lead_source(code: Code) -> Source:
    """The table a lead's amperes stand in.

    Example:
        >>> str(lead_source("NEC"))
        'NEC, Table 310.16'
    """
    return _TABLE[code]


@cache
def lead_carries_a(wire: Conductor, code: Code, terminals: str | None = None) -> float:
    """What a copper lead carries at its terminals [A].

    Source: NEC Table 310.16 with 110.14(C), Canada by the same figures; IEC 60364-5-52 Table B.52.2, B2 (from memory), the leads taken
    as in pipe on a wall.  In free air a lead carries more: that is left as margin.

    Args:
        wire: Of copper.
        code: That holds.
        terminals: What the least of them is marked with; None: as the code takes marked ones.

    Example:
        >>> wire = conductor_of("2/0 AWG", "copper")
        >>> lead_carries_a(wire, "NEC"), lead_carries_a(wire, "NEC", "60 C")
        (175.0, 145.0)
    """
    marked = terminals or TERMINALS_C[code]
    if code == "IEC":
        cooler = TERMINALS_IEC_60 if marked == BARE else 1.0
        return iec_in_air_a(wire, 70, AT_REST_C) * cooler
    return wire.at_60_a if NEC_COLUMN[marked] == 60 else wire.at_75_a


def largest_lead_fuse_a(wire: Conductor, code: Code, terminals: str | None = None) -> float:
    """Largest fuse that protects a lead [A].

    Source: NEC 240.4(B), the next standard size up to 800 A; IEC 60364-4-43, 433.1, none over what it carries.

    Example:
        >>> largest_lead_fuse_a(conductor_of("4/0 AWG", "copper"), "NEC")
        250.0
    """
    carried = lead_carries_a(wire, code, terminals)
    if code == "IEC":
        return rating_under_a(carried)
    up = standard_rating_a(carried, code)
    return carried if up is None or up > ONE_LEAD_A else up


@cache
def lead_for(rating_a: float, code: Code, terminals: str | None = None) -> str | None:
    """The thinnest copper that carries as much as its fuse's rating; None past the table.

    Source: as ``lead_carries_a``.

    Example:
        >>> lead_for(100.0, "NEC"), lead_for(100.0, "NEC", "60 C"), lead_for(231.0, "NEC"), lead_for(1e4, "NEC"), lead_for(100.0, "IEC")
        ('3 AWG', '1 AWG', '250 kcmil', None, '35 mm2')
    """
    for size in sizes("copper"):
        carried = lead_carries_a(conductor_of(size, "copper"), code, terminals)
        if is_metric(size) is (code == "IEC") and carried >= rating_a:
            return size
    return None


def leads_words(rating_a: float | None, code: Code, terminals: str | None = None) -> str:
    """How thick a fuse wants its leads; both ways where nobody has read the terminals.

    Args:
        rating_a: Of the fuse; None past the standard sizes.
        code: That holds.
        terminals: What the least of them is marked with; None: not read.

    Example:
        >>> leads_words(100.0, "NEC", "75 C"), leads_words(1e4, "NEC", "75 C")
        ('copper from 3 AWG at 75 C terminals', 'thicker than the table here knows, or two leads in parallel: ask')
        >>> leads_words(100.0, "IEC")
        'copper from 35 mm2 where every terminal bears 70 C, from 50 mm2 where one bears 60 C only'
    """
    thick = "thicker than the table here knows, or two leads in parallel: ask"
    marked = terminals or TERMINALS_C[code]
    size = None if rating_a is None else lead_for(rating_a, code, marked)
    if rating_a is None or size is None:
        return thick
    if terminals is not None:
        borrowed = " (figures borrowed from NEC Table 310.16: ask)" if code == "Canada" else ""
        return f"copper from {size} at {marked} terminals{borrowed}"
    bare = lead_for(rating_a, code, BARE) or "none in the table"
    return f"copper from {size} where every terminal bears {marked}, from {bare} where one bears 60 C only{_WHY[code]}"
