"""Writes docs/validation.md: theirs, ours, the difference, and why that much is allowed."""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT))

from tests.published.cases import Case, cases  # noqa: E402


def _line(case: Case) -> str:
    ours = np.atleast_1d(case.ours())
    theirs = ", ".join(f"{value:g}" for value in case.published)
    found = ", ".join(f"{value:.5g}" for value in ours)
    apart = float(np.max(np.abs(ours - np.asarray(case.published))))
    name = case.identity.partition(":")[2]
    return (
        f"| {name} | {case.place} | {case.status} | {theirs} {case.unit} | {found} | {apart:.2g} "
        f"| {case.why_this_tolerance} |"
    )


def page() -> str:
    """The whole page."""
    lines = [
        "# Other people's numbers and ours",
        "",
        "Made by `make validation` from `tests/published/`. Status: *seen* in a public document, *seen-copy* in a public copy",
        "of a standard's table, *computed* with a named library or the closed form, *memory* not confirmed.",
    ]
    work = ""
    for case in cases():
        if case.work != work:
            work = case.work
            lines += [
                "",
                f"## {work}",
                "",
                "| row | place | status | theirs | ours | apart | why this much is allowed |",
            ]
            lines += ["|---|---|---|---|---|---|---|"]
        lines.append(_line(case))
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    (ROOT / "docs/validation.md").write_text(page(), encoding="utf-8")
