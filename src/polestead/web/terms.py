"""The terms of the trade and ours, a line each, as docs/words.md has them."""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files
from pathlib import Path

_ROW = re.compile(r"^\| ([^|]+) \| ([^|]+) \|$", re.MULTILINE)


@cache
def terms() -> dict[str, str]:
    """The line of every term, in order; shipped with the package, in the source folder read where it is written.

    Example:
        >>> terms()["gives"]
        'uses more than 100 of 100'
    """
    shipped = Path(str(files("polestead.web"))) / "words.md"
    written = Path(__file__).parents[3] / "docs" / "words.md"
    text = (shipped if shipped.is_file() else written).read_text(encoding="utf-8")
    rows = [(word.strip(), line.strip().replace("`", "")) for word, line in _ROW.findall(text)]
    return dict(row for row in rows[1:] if not row[0].startswith("---"))


def term_slug(word: str) -> str:
    """The anchor of a term.

    Example:
        >>> term_slug("storm flat, snow steep")
        'storm-flat-snow-steep'
    """
    return re.sub(r"[^a-z0-9]+", "-", word.lower()).strip("-")
