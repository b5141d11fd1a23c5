"""What can be refused at once: a file that is not there, a folder that may not be written; told before the sums are read in."""

from __future__ import annotations

import argparse
from pathlib import Path

from polestead.cli.put import tried
from polestead.homestead.demos import demo_names
from polestead.homestead.text import text_of


def looked_at(words: argparse.Namespace) -> None:
    """The file a command reads and the folder it writes.

    Args:
        words: Of the command.

    Raises:
        Wrong: The file cannot be read at all, or the folder may not be written.
    """
    name = getattr(words, "file", None)
    if isinstance(name, str) and (name not in demo_names() or Path(name).exists()):
        text_of(Path(name))
    if words.command == "book":
        tried(words.out)
