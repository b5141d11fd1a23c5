"""From words to an exit code; nothing but a sentence ever reaches the owner."""

from __future__ import annotations

import argparse
import contextlib
import os
import sys
from textwrap import fill

from polestead.base.problem import Wrong
from polestead.cli.arguments import read

STANDS, GIVES, FILE_WRONG, FAILED, STOPPED = 0, 1, 2, 3, 130


def run(arguments: list[str] | None) -> int:
    """Carry a command out and give its exit code (conventions §17)."""
    _sturdy_output()
    words = read(arguments)
    try:
        code = _carried_out(words, alone=arguments is None)
        sys.stdout.flush()
    except Wrong as wrong:
        tell(wrong)
        return FILE_WRONG
    except KeyboardInterrupt:
        print("stopped; nothing was half-written", file=sys.stderr)
        return STOPPED
    except BrokenPipeError:
        for stream in (sys.stdout, sys.stderr):  # both may be the same closed pipe
            with contextlib.suppress(OSError):
                os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
        return STANDS
    except Exception as failed:
        if os.environ.get("POLESTEAD_TRACE"):
            raise
        print(
            f"polestead itself failed ({type(failed).__name__}: {failed}). Your file was not touched. "
            "Set POLESTEAD_TRACE=1 and run again to see where, and report it with the file.",
            file=sys.stderr,
        )
        return FAILED
    return code


def _carried_out(words: argparse.Namespace, *, alone: bool) -> int:
    """The command's own function; the morning line, wanted at once, is kept from what is slow to read in.

    Args:
        words: Of the command.
        alone: The process ends with it.
    """
    from polestead.cli.first import looked_at

    looked_at(words)
    if words.command == "morning":
        from polestead.cli.morning import morning

        return morning(words, alone=alone)
    from polestead.cli import commands

    code: int = getattr(commands, words.command)(words)
    return code


def tell(wrong: Wrong) -> None:
    """All problems, numbered, on the error stream."""
    count = len(wrong.problems)
    print(f"{count} thing{'s' if count > 1 else ''} to mend:", file=sys.stderr)
    for number, problem in enumerate(wrong.problems, start=1):
        place = (
            f"[{problem.section}] {problem.key}".strip()
            if problem.section
            else problem.key or "the file"
        )
        print(f"\n{number}. {place}", file=sys.stderr)
        print(f"   given:   {problem.given}", file=sys.stderr)
        print(_allowed(problem.allowed), file=sys.stderr)
        print(f"   do:      {problem.do}", file=sys.stderr)


def _sturdy_output() -> None:
    """A terminal that knows only ASCII gets question marks, not a failure."""
    for stream in (sys.stdout, sys.stderr):
        with contextlib.suppress(AttributeError, ValueError):
            stream.reconfigure(errors="replace")  # type: ignore[union-attr]


def _allowed(said: str) -> str:
    """In one line as it is; several lines, each wrapped, under the word."""
    if "\n" not in said:
        return f"   allowed: {said}"
    lines = (fill(line, 100, initial_indent="     ", subsequent_indent="       ") for line in said.splitlines())  # fmt: skip
    return "\n".join(("   allowed:", *lines))
