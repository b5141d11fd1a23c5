"""The leaves of a book made, two at a time."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor
from functools import partial

from polestead.answer.drawables import Drawables
from polestead.sheets.book.book import LEAVES, leaf_pdf
from polestead.sheets.book.matter import Matter
from polestead.sheets.drawn.dxf import plates_dxf
from polestead.sheets.drawn.gust_leaf import gust_leaf_pdf
from polestead.sheets.drawn.template import template_pdf
from polestead.sheets.named import HANG, PHONE, TEMPLATES

Made = tuple[str, str, Callable[[], bytes]]
AT_ONCE = 2  # the typesetter works beside the interpreter


def made(names: tuple[str, ...], matter: Matter, drawn: Drawables) -> Iterator[Made]:
    """What each is called, the name of its file, and how it is made."""
    style, paper = matter.style, matter.paper
    for name in names:
        if name == PHONE:
            yield "the phone file", f"{PHONE}.html", lambda: _phone(matter)
        elif name == HANG:
            yield (
                "gust card to hang",
                f"{name}.pdf",
                lambda: gust_leaf_pdf(drawn, style, paper, matter.on, matter.warning),
            )
        elif name == TEMPLATES:
            yield "drill templates at 1:1", f"{name}.pdf", lambda: template_pdf(drawn.plates, drawn.name, drawn.fingerprint, style, paper, matter.on, matter.warning)  # fmt: skip
            for plate, content in plates_dxf(drawn.plates).items():
                yield f"plate {plate}", f"plates/{plate}", partial(bytes, content)
        else:
            yield LEAVES[name][0], f"{name}.pdf", _of(name, matter)


def pressed(
    leaves: Iterable[Made], told: Callable[[str, int, int], None]
) -> list[tuple[str, bytes]]:
    """Every file with its name, in the order given; all are made before the first is handed over.

    Args:
        leaves: From `made`.
        told: Told what is waited for, how many are done, and of how many.
    """
    with ThreadPoolExecutor(AT_ONCE) as presses:
        asked = [(words, file, presses.submit(make)) for words, file, make in leaves]
        done: list[tuple[str, bytes]] = []
        try:
            for words, file, coming in asked:
                told(words, len(done), len(asked))
                done.append((file, coming.result()))
        finally:  # where one fails or the owner stops it, the others are not begun
            presses.shutdown(wait=False, cancel_futures=True)
    return done


def _of(name: str, matter: Matter) -> Callable[[], bytes]:
    return lambda: leaf_pdf(name, matter)


def _phone(matter: Matter) -> bytes:
    from polestead.sheets.phone.phone import phone_file

    return phone_file(matter).encode("utf-8")
