"""Straight lines of a PDF page in millimetres, from its own drawing orders: no picture, no rounding to dots."""

from __future__ import annotations

from io import BytesIO
from itertools import pairwise

from pypdf import PdfReader
from pypdf.generic import ContentStream

Matrix = tuple[float, float, float, float, float, float]
Segment = tuple[float, float, float, float]  # x1, y1, x2, y2 [mm], y downwards from the top edge
MM = 25.4 / 72.0


def straight_lines_mm(pdf: bytes, page: int = 0, corners: bool = False) -> list[Segment]:
    """Every path that is one straight stroke; with ``corners`` the sides of stroked outlines too."""
    reader = PdfReader(BytesIO(pdf))
    sheet = reader.pages[page]
    top = float(sheet.mediabox.top)
    now: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
    kept: list[Matrix] = []
    path: list[tuple[str, float, float]] = []
    found: list[Segment] = []
    for operands, operator in ContentStream(sheet.get_contents(), reader).operations:
        if operator == b"q":
            kept.append(now)
        elif operator == b"Q":
            now = kept.pop()
        elif operator == b"cm":
            now = _times(tuple(float(one) for one in operands), now)  # type: ignore[arg-type]
        elif operator in (b"m", b"l"):
            path.append((operator.decode(), *_at(now, float(operands[0]), float(operands[1]))))
        elif operator == b"h" and corners and path:
            path.append(("l", *next(one for one in reversed(path) if one[0] == "m")[1:]))
        elif operator in (b"c", b"v", b"y", b"re", b"h"):
            path.append(("other", 0.0, 0.0))
        elif operator in (b"S", b"s"):
            if corners or [kind for kind, _, _ in path] == ["m", "l"]:
                sides = [(a, b) for a, b in pairwise(path) if a[0] != "other" and b[0] == "l"]
                found += [(x1 * MM, (top - y1) * MM, x2 * MM, (top - y2) * MM) for (_, x1, y1), (_, x2, y2) in sides]  # fmt: skip
            path = []
        elif operator in (b"f", b"f*", b"n", b"B", b"B*"):
            path = []
    return found


def _times(a: Matrix, b: Matrix) -> Matrix:
    """The matrix a laid before b, as ``cm`` does."""
    return (
        a[0] * b[0] + a[1] * b[2], a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2], a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4], a[4] * b[1] + a[5] * b[3] + b[5],
    )  # fmt: skip


def _at(m: Matrix, x: float, y: float) -> tuple[float, float]:
    return m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]
