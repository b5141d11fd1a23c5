"""What the log teaches, from a terminal."""

from __future__ import annotations

import argparse
from datetime import date

from polestead.base.show import Style
from polestead.cli.put import put_data
from polestead.daybook.daybook import Daybook
from polestead.homestead.read import OwnersFile


def taught(
    words: argparse.Namespace, owners: OwnersFile, book: Daybook, today: date, style: Style
) -> tuple[int, str]:
    """Written where asked, and its words; 1 while something found lasts (conventions §17)."""
    from polestead.daybook.teaching.expected import taught_from
    from polestead.sheets.teaching import taught_data, taught_text

    found = taught_from(owners, book.entries(), today)
    if words.json is not None:
        data = taught_data(owners.homestead.name, found)
        put_data(words.json, data)
    return 1 if found.loss_lasts else 0, taught_text(found, style, why=words.why)
