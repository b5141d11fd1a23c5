"""From the file on disk to a checked homestead with its rows; all problems told at once."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from polestead.base.row import Row
from polestead.homestead.model import Homestead


@dataclass(frozen=True, slots=True)
class OwnersFile:
    """A homestead file as read.

    Attributes:
        path: Where it lies.
        homestead: The checked sections; as-built values stand where the owner measured them.
        rows: Every input of the sums with its standing, defaults included.
        fingerprint: First eight hex digits of the SHA-256 of its text.
    """

    path: Path
    homestead: Homestead
    rows: tuple[Row, ...]
    fingerprint: str


def read_homestead(path: Path) -> OwnersFile:
    """Read and check a homestead file.

    Raises:
        Wrong: With every problem found, each with section, key, given, allowed, what to do.
    """
    raise NotImplementedError
