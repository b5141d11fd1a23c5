"""Compiling a room's hot loops, and keeping what was compiled for the next run.

Import it in kernel files only: the compiling machinery is slow to load.  A face that wants little of them and wants it at once
takes them plain (``PLAIN``): the same functions, not compiled, the machinery never loaded (decision 0014).
"""

from __future__ import annotations

import hashlib
import inspect
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any, TypeVar, cast

PLAIN = (
    "POLESTEAD_PLAIN_LOOPS"  # set in the environment of a process before its first loop is read in
)
_F = TypeVar("_F", bound=Callable[..., object])


@cache
def _stamp(folder: Path) -> str:
    """Contents of all of a room's own files, and of `base`, the one room loops may take equations in from."""
    found = hashlib.sha256()
    for file in (*sorted(folder.glob("*.py")), *sorted(Path(__file__).parent.glob("*.py"))):
        found.update(file.name.encode() + b"\0" + file.read_bytes() + b"\0")
    return found.hexdigest()


@contextmanager
def plain_loops() -> Iterator[None]:
    """Loops read in here for the first time are taken plain; for a process that ends after one small work.

    Where the machinery is loaded already, nothing changes: plain and compiled loops are not mixed.
    """
    if "numba" in sys.modules:
        yield
        return
    os.environ[PLAIN] = "1"
    try:
        yield
    finally:
        del os.environ[PLAIN]


def compiled(function: _F) -> _F:
    """Compile for numbers only, keep the result beside the source, let other threads run meanwhile.

    The compiler's own cache looks at the file a function stands in; a loop takes equations from other files of its room in,
    and from `base`, so the stamp is taken over both: no loop runs on equations that have since been changed.

    Args:
        function: Plain numbers and arrays in, the same out.

    Raises:
        ValueError: A default that is not equal to itself (not a number): what is kept is found again by the defaults too, so
            such a loop would be compiled anew in every process.
    """
    if any(given != given for given in function.__defaults__ or ()):
        msg = f"{function.__qualname__} has a default that is not a number"
        raise ValueError(msg)
    if os.environ.get(PLAIN):
        return function
    from numba import njit

    made: Any = njit(cache=True, nogil=True)(function)
    folder = Path(inspect.getfile(function)).parent
    made._cache._cache_file._source_stamp = _stamp(folder)
    return cast("_F", made)
