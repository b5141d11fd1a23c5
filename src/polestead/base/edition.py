"""Which edition of ASCE 7 a rule is told by: that of the file, or the one it was read in, said openly."""

from __future__ import annotations

from dataclasses import replace

from polestead.base.source import Source

READ = "ASCE 7-16"
LATER = "ASCE 7-22"


def in_edition(source: Source, basis: str, own: bool = False) -> Source:
    """The source of a rule as a file of this basis names it.

    Most rules were read or remembered in 7-16. Under 7-22 such a rule is told as taken from 7-16, from memory that it has not
    changed; only what is worked by 7-22's own figures carries its name.

    Args:
        source: Of the rule, in 7-16.
        basis: Of the file.
        own: Whether the figures are the later edition's own.

    Example:
        >>> figure = Source("ASCE 7-16", "Fig. 27.3-4, clear flow", "seen-copy")
        >>> str(in_edition(figure, "ASCE 7-22"))
        'ASCE 7-16, Fig. 27.3-4, clear flow; ASCE 7-22 not seen (from memory)'
        >>> str(in_edition(figure, "ASCE 7-16")), str(in_edition(Source("ASCE 7-16", "Table 26.10-1"), "ASCE 7-22", own=True))
        ('ASCE 7-16, Fig. 27.3-4, clear flow', 'ASCE 7-22, Table 26.10-1')
    """
    if basis != LATER or READ not in source.work:
        return source
    if own:
        return replace(source, work=source.work.replace(READ, LATER))
    if source.work == READ:
        return Source(READ, f"{source.place}; {LATER} not seen", "memory")
    return replace(source, work=source.work.replace(READ, f"{READ} ({LATER} not seen)"))
