"""Data tables that lie beside their room as CSV, each row with its source."""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files


@cache
def table(room: str, name: str) -> tuple[dict[str, str], ...]:
    """Rows of ``<room>/<name>.csv`` as text by column; lines that begin with ``#`` are left out.

    Args:
        room: Room that owns the table (``strength``).
        name: File name without its ending.

    Raises:
        ValueError: If the table has no ``source`` column or a row leaves it empty.

    Example:
        >>> table("base", "units")[0]["unit"]
        'm'
    """
    text = files(f"polestead.{room}").joinpath(f"{name}.csv").read_text(encoding="utf-8")
    rows = tuple(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))
    if any(not row.get("source") for row in rows):
        message = f"table {room}/{name}: every row needs a source"
        raise ValueError(message)
    return rows
