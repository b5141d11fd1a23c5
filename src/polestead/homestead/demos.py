"""The demo homesteads that ship inside the package."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

from polestead.base.problem import Problem, Wrong

DEMOS = ("hollow-spruce", "cinder-mesa", "slieve-moss")


def demo_names() -> tuple[str, ...]:
    """The demos' names, the first demo first."""
    return DEMOS


def demo_path(name: str) -> Path:
    """Where a demo lies.

    Raises:
        Wrong: No such demo; names those there are.

    Example:
        >>> demo_path("hollow-spruce").name
        'hollow-spruce.toml'
    """
    if name not in DEMOS:
        raise Wrong([Problem("", "demo", name, ", ".join(DEMOS), "Name one of these.")])
    return Path(str(files("polestead.homestead").joinpath("demos", f"{name}.toml")))
