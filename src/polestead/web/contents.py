"""The words of the contents sentence."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Entry:
    """One word of the contents sentence.

    Attributes:
        word: As it stands in the sentence.
        href: Where it leads; with a # it is a part of the sheet.
        place: Smaller comes first.
    """

    word: str
    href: str
    place: int

    @property
    def on_sheet(self) -> bool:
        """A part of the sheet, not a leaf of its own."""
        return self.href.startswith("/#")
