"""What lies beside a file named on a command: the file itself, or a demo, and its daybook."""

from __future__ import annotations

from pathlib import Path

from polestead.daybook.daybook import daybook_path
from polestead.homestead.demos import demo_names, demo_path


def file_or_demo(name: str) -> tuple[Path, bool]:
    """The file, or the demo of that name where no such file is there.

    Args:
        name: As given to the command.
    """
    path = Path(name)
    demo = name in demo_names() and not path.exists()
    return (demo_path(name), True) if demo else (path, False)


def daybook_beside(name: str) -> Path:
    """Where the daybook lies: beside the file; that of a demo, which is nobody's house, in this folder.

    Args:
        name: As given to the command.
    """
    path, demo = file_or_demo(name)
    return Path(f"{name}.daybook") if demo else daybook_path(path)
