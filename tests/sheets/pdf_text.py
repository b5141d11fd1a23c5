"""The words of a PDF, page by page, in the order they are read: by another library than the one that wrote them."""

from __future__ import annotations

import re
from contextlib import closing
from functools import lru_cache

from pypdfium2 import PdfDocument

BROKEN = "[\ufffe\x02]"  # where a word is broken at the end of a line


@lru_cache(maxsize=16)
def pages_of(pdf: bytes) -> tuple[str, ...]:
    """Every page's words, one blank between them."""
    with closing(PdfDocument(pdf)) as whole:
        return tuple(_words(page) for page in whole)


def words_of(pdf: bytes) -> str:
    """All pages' words as one text."""
    return " ".join(pages_of(pdf))


def _words(page) -> str:
    with closing(page), closing(page.get_textpage()) as text:
        return re.sub(r"\s+", " ", re.sub(BROKEN, "", text.get_text_bounded())).strip()
