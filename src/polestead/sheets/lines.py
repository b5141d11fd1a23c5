"""A line of text, 78 columns wide: a paragraph, a heading."""

from __future__ import annotations

from textwrap import fill

WIDTH = 78


def say(text: str, indent: str = "  ", hang: str | None = None) -> str:
    """One paragraph, wrapped."""
    return fill(
        text,
        WIDTH,
        initial_indent=indent,
        subsequent_indent=indent if hang is None else hang,
        break_on_hyphens=False,
    )


def heading(text: str) -> str:
    """A heading over a rule."""
    return f"\n{text}\n{'-' * WIDTH}"
