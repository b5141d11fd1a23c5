"""Results as plain data: names, numbers, words, lists; what JSON can carry."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from math import isfinite
from typing import Any

from polestead.base.source import Source


def plain_data(value: Any) -> Any:
    """A result with all that hangs on it; a source as its words, what is no number or has no end as null.

    Example:
        >>> plain_data(Source("NEC", "690.7"))
        'NEC, 690.7'
        >>> plain_data((1.0, float("inf")))
        [1.0, None]
    """
    if isinstance(value, Source):
        return str(value)
    if is_dataclass(value) and not isinstance(value, type):
        return {one.name: plain_data(getattr(value, one.name)) for one in fields(value)}
    if isinstance(value, (tuple, list)):
        return [plain_data(one) for one in value]
    if isinstance(value, float):
        return value if isfinite(value) else None
    return value
