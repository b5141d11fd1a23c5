"""The words of the contents sentence."""

from __future__ import annotations

from dataclasses import dataclass

LIVING = "living with it"


@dataclass(frozen=True, slots=True)
class Entry:
    """One word of the contents sentence.

    Attributes:
        word: As it stands in the sentence.
        href: Where it leads; with a # it is a part of the sheet.
        place: Smaller comes first.
        lived_in: Its place once they live with it; None: the same.
    """

    word: str
    href: str
    place: int
    lived_in: int | None = None

    def place_when(self, we_are: str) -> int:
        """Its place, by what they are doing."""
        return self.lived_in if self.lived_in is not None and we_are == LIVING else self.place

    @property
    def on_sheet(self) -> bool:
        """A part of the sheet, not a leaf of its own."""
        return self.href.startswith("/#")
