"""The terminal; no formula, no default, no unit factor of its own."""

from __future__ import annotations


def main(arguments: list[str] | None = None) -> int:
    """Entry point of the ``polestead`` command; the exit code follows conventions §17."""
    from polestead.cli.run import run

    return run(arguments)
