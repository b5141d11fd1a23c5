"""Progress on the error stream, when a person is looking and it takes over a second."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

PATIENCE_S = 1.0


@contextmanager
def shown() -> Iterator[Callable[[str, int, int], None]]:
    """A progress teller that stays silent for the first second and off terminals."""
    if not sys.stderr.isatty():
        yield lambda _what, _step, _of: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn

    begun = time.monotonic()
    bar = Progress(
        TextColumn("{task.description:<34}"), BarColumn(30), TextColumn("{task.completed} of {task.total}"),
        console=Console(stderr=True), transient=True,
    )  # fmt: skip
    task = bar.add_task("", total=1)

    def tell(what: str, step: int, of: int) -> None:
        bar.update(task, description=what, completed=step, total=of)
        if time.monotonic() - begun > PATIENCE_S and not bar.live.is_started:
            bar.start()

    try:
        yield tell
    finally:
        if bar.live.is_started:
            bar.stop()
