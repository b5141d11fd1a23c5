"""Words written for whoever edits the file by hand, as the browser says them: a key of the file becomes its field's label, and leads there."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from markupsafe import Markup, escape

from polestead.base.show import Style, in_one_unit
from polestead.homestead.fields import key_of
from polestead.homestead.model import Homestead
from polestead.homestead.standing import is_list, section_class
from polestead.web.places import called_path, place_of_path

Path = tuple[str, ...]
_KEY = r"[a-z]+[a-z0-9_]*"
_FOUND = re.compile(
    rf"(?P<before>write |Write |under )?(?:\[{{1,2}}(?P<table>{_KEY}(?:\.{_KEY})*)\]{{1,2}}|(?<![\w/.])(?P<path>{_KEY}(?:\.{_KEY})+|[a-z]+(?:_[a-z0-9]+)+)(?![\w/]))(?P<yes> = true\b)?"
)


@cache
def places() -> dict[str, Path]:
    """Every section and key of the file by its dotted name, and each key that names one place only by itself."""
    paths = [path for path, _ in _every(Homestead, ())]
    found = {".".join(path): path for path in paths}
    found |= {".".join(part for part in path if not part.isdecimal()): path for path in paths}
    ends: dict[str, set[Path]] = {}
    for path in paths:
        for start in range(1, len(path)):
            ends.setdefault(
                ".".join(part for part in path[start:] if not part.isdecimal()), set()
            ).add(path)
    return {**{words: min(some) for words, some in ends.items() if len(some) == 1 or "." in words}, **found}  # fmt: skip


def _every(model: type, at: Path) -> Iterator[tuple[Path, type | None]]:
    for name, info in model.model_fields.items():  # type: ignore[attr-defined]
        path, inner = (*at, key_of(name)), section_class(info)
        yield path, inner
        if inner is not None:
            yield from _every(inner, (*path, "1") if is_list(info) else path)


def plainly(words: str, style: Style | None = None) -> Markup:
    """A sentence with every key of the file in it as a link to its field; any other word stays as it is.

    Args:
        words: As a room wrote them.
        style: Whose units, where a figure stands in both.

    Example:
        >>> str(plainly("no voltage of the breaker (run.breaker_bears); docs/method/footing.md"))
        'no voltage of the breaker (<a href="/file/run#f-run-breaker_bears">run: breaker bears</a>); docs/method/footing.md'
        >>> str(plainly("Write discount under [prices]."))
        'Write discount under <a href="/file/prices">prices</a>.'
        >>> str(plainly("half a foot (0.15 m) wider", "feet"))
        'half a foot wider'
    """
    words = words if style is None else in_one_unit(words, style)
    pieces, at = [], 0
    for found in _FOUND.finditer(words):
        path = places().get(found["table"] or found["path"])
        if path is None:
            continue
        pieces += [escape(words[at : found.start()]), escape(found["before"] or "")]
        pieces.append(Markup('<a href="{}">{}</a>{}').format(_page(path), called_path(part for part in path if not part.isdecimal()), ": yes" if found["yes"] else ""))  # fmt: skip
        at = found.end()
    return Markup("").join([*pieces, escape(words[at:])])


def _page(path: Path) -> str:
    return f"/file/{path[0]}" if len(path) == 1 else place_of_path(path)


def spanned(words: str, style: Style) -> str:
    """What a field takes, in the owner's units alone.

    Example:
        >>> spanned("Over 0.3 m (0.98 ft), at most 12 m (39.4 ft)", "feet"), spanned("Over 0 Pa (0.00 psf)", "metric")
        ('Over 0.98 ft, at most 39.4 ft', 'Over 0 Pa')
        >>> spanned("At least 0 m (0.00 ft), at most 1.5 m (4.92 ft)", "feet"), spanned("Over 0 m (0.00 ft), at most 0.15 m (5.91 in)", "feet")
        ('At least 0 ft, at most 4.92 ft', 'Over 0 in, at most 5.91 in')
    """
    told = in_one_unit(re.sub(r"\((-?)0\.00? ", r"(\g<1>0 ", words), style)
    return re.sub(r"\b0 ft(?=, at most [\d.]+ in\b)", "0 in", told)
