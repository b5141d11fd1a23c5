"""Where a number comes from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Status = Literal[
    "seen",  # read in a public document
    "seen-copy",  # read in a public copy of a standard's table
    "computed",  # a closed form, worked apart
    "memory",  # not confirmed yet: said wherever it is printed
    "common practice",  # a trade rule without a source
    "owner",  # the owner gave it
    "ours",  # a rule of this project's own
]


@dataclass(frozen=True, slots=True)
class Source:
    """A published work, the place in it, and how far it was confirmed.

    Example:
        >>> str(Source("ASCE 7-16", "Eq. 26.10-1", "memory"))
        'ASCE 7-16, Eq. 26.10-1 (from memory)'
        >>> str(Source("common practice, no source", status="common practice"))
        'common practice, no source'
        >>> str(Source("EN 50618 (memory)", "", "memory"))
        'EN 50618 (from memory)'
    """

    work: str
    place: str = ""
    status: Status = "seen"

    def __str__(self) -> str:
        text = f"{self.work}, {self.place}" if self.place else self.work
        text = text.replace("(memory)", "(from memory)")  # a table's own column says it shorter
        said = {"memory": " (from memory)", "ours": " (our own rule)"}
        mark = said.get(self.status, "")
        return text if mark and text.endswith(mark) else text + mark


OWNER = Source("the homestead file", status="owner")
COMMON_PRACTICE = Source("common practice, no source", status="common practice")
