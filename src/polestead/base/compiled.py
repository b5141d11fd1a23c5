"""Compiling a room's hot loops, and keeping what was compiled for the next run.

Import it in kernel files only: the compiling machinery is slow to load.
"""

from __future__ import annotations

import hashlib
import inspect
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any, TypeVar, cast

from numba import njit

_F = TypeVar("_F", bound=Callable[..., object])


@cache
def _stamp(folder: Path) -> str:
    """Contents of all of a room's own files, and of `base`, the one room loops may take equations in from."""
    found = hashlib.sha256()
    for file in (*sorted(folder.glob("*.py")), *sorted(Path(__file__).parent.glob("*.py"))):
        found.update(file.name.encode() + b"\0" + file.read_bytes() + b"\0")
    return found.hexdigest()


def compiled(function: _F) -> _F:
    """Compile for numbers only, keep the result beside the source, let other threads run meanwhile.

    The compiler's own cache looks at the file a function stands in; a loop takes equations from other files of its room in,
    and from `base`, so the stamp is taken over both: no loop runs on equations that have since been changed.

    Args:
        function: Plain numbers and arrays in, the same out.
    """
    made: Any = njit(cache=True, nogil=True)(function)
    folder = Path(inspect.getfile(function)).parent
    made._cache._cache_file._source_stamp = _stamp(folder)
    return cast("_F", made)
