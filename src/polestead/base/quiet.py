"""The solar library, read in whole by one thread at a time, and the network library under it without a word."""

from __future__ import annotations

import sys
from importlib.util import find_spec
from threading import Lock
from typing import Any

NOT_THERE = "socks"
ASKS_FOR_IT = "urllib3.contrib.socks"
_READING_IN = Lock()


def solar_library() -> Any:
    """Pvlib.  Every use of it goes through here: two threads that begin to read it in at once leave each other half of it.

    Example:
        >>> solar_library().__name__
        'pvlib'
    """
    with _READING_IN:
        quiet_network_library()
        import pvlib
    return pvlib


def quiet_network_library() -> None:
    """Before the solar library is read in: the network library under it does not warn of a proxy nobody uses.

    It silences that warning itself, but the compiling of loops in another thread puts the filters of warnings back as they
    were, and then the warning comes all the same, or is an error where warnings are errors.  A module that is known not to
    be there is not asked for, and nothing warns; the library then does without, as it would have.

    Example:
        >>> quiet_network_library()
    """
    if find_spec(NOT_THERE) is None:
        sys.modules.setdefault(ASKS_FOR_IT, None)  # type: ignore[arg-type]  # the language's way to say so
