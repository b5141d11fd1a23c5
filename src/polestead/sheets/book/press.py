"""Sections to a PDF: tagged, with its language and its words for every picture; the same sections give the same bytes."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from hashlib import blake2s
from importlib.resources import files
from typing import Any

from polestead.base.show import Style, in_one_unit
from polestead.sheets.book.blocks import Block, Section
from polestead.sheets.leaf import PAPERS, Paper

ON_PAGE = "screening sums, not a stamped design: local code, a licensed engineer and an electrician decide"


@dataclass(frozen=True, slots=True)
class Cover:
    """What every page of a leaf says beside its own words.

    Attributes:
        title: Of the leaf.
        name: Of the homestead.
        fingerprint: Of its file.
        warning: The top line where something gives; empty where all holds.
        on: Day of the print; None leaves a blank, and the bytes as they were.
        contents: Whether a table of contents stands in front.
        before_contents: How many sections stand before it.
        guessed: What of it rests on guesses; empty where nothing of the place does.
    """

    title: str
    name: str
    fingerprint: str
    warning: str
    on: date | None
    contents: bool = False
    before_contents: int = 0
    guessed: str = ""


def pressed(cover: Cover, sections: Sequence[Section], paper: Paper, style: Style) -> bytes:
    """The PDF; a figure a sentence gives both ways stands in one of them."""
    import typst

    parts: dict[str, Any] = {"main": files("polestead.sheets.book").joinpath("book.typ").read_bytes()}  # fmt: skip
    told = [_section(section, parts) for section in sections]
    page = {**_words(cover), "paper": PAPERS[paper].name, "sections": _one_unit(told, style)}
    parts["page.json"] = json.dumps(page).encode("utf-8")
    compile_files: Any = typst.compile  # its stub does not know a folder of files
    made = compile_files(
        parts, format="pdf", ignore_system_fonts=True, timestamp=0, pdf_standards="ua-1"
    )
    return bytes(made)


def _one_unit(told: Any, style: Style) -> Any:
    """Every word of it in one set of units."""
    if isinstance(told, str):
        return in_one_unit(told, style)
    if isinstance(told, dict):
        return {key: _one_unit(value, style) for key, value in told.items()}
    return [_one_unit(one, style) for one in told] if isinstance(told, (list, tuple)) else told


def day_words(on: date | None) -> str:
    """The day of the print, or a blank to write it in.

    Example:
        >>> day_words(date(2026, 6, 12)), day_words(None)
        ('12 Jun 2026', 'printed ____________')
    """
    return "printed ____________" if on is None else f"{on.day} {on:%b %Y}"


def _words(cover: Cover) -> dict[str, Any]:
    return {
        "title": f"{cover.name}: {cover.title}",
        "warning": cover.warning,
        "foot": f"{day_words(cover.on)} · homestead {cover.fingerprint}",
        "sums": ON_PAGE,
        "guessed": cover.guessed,
        "contents": cover.contents,
        "before": cover.before_contents,
    }


def _section(section: Section, parts: dict[str, Any]) -> dict[str, Any]:
    """The section with its pictures put beside it as files."""
    card = dict(section.card)
    if card:
        card["sketches"] = [_laid_by(one, parts) for one in card["sketches"]]
        card["clock"] = None if card["clock"] is None else _laid_by(card["clock"], parts)
    blocks = list(_filed_blocks(section.blocks, parts))
    return {"title": section.title, "kind": section.kind, "blocks": blocks, "card": card}


def _filed_blocks(blocks: Sequence[Block], parts: dict[str, Any]) -> Iterator[Block]:
    for block in blocks:
        if block["kind"] == "picture":
            yield _laid_by(block, parts)
        elif block["kind"] == "beside":
            yield {**block, **{side: list(_filed_blocks(block[side], parts)) for side in ("left", "right")}}  # fmt: skip
        else:
            yield block


def _laid_by(one: dict[str, Any], parts: dict[str, Any]) -> dict[str, Any]:
    """A picture with the name of its file in its own place."""
    told = {key: value for key, value in one.items() if key != "svg"}
    return {**told, "file": _filed(one["svg"], parts)}


def _filed(svg: str, parts: dict[str, Any]) -> str:
    """Named by what it holds: what the typesetter laid for one leaf it need not lay again for the next."""
    content = svg.encode("utf-8")
    name = f"{blake2s(content, digest_size=12).hexdigest()}.svg"
    parts[name] = content
    return name
