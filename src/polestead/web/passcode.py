"""A passcode; apart from the gate, so that it is told before anything slow is read in."""

from __future__ import annotations

import secrets

LETTERS = "23456789abcdefghjkmnpqrstuvwxyz"  # none that looks like another
LENGTH = 8
OPENS = (
    "read and change the homestead file, begin or take up another one in its folder, tick the build cards and write in the daybook; "
    "nothing else of that machine is opened"
)


def new_passcode() -> str:
    """A passcode short enough to type on a phone, in two halves."""
    signs = "".join(secrets.choice(LETTERS) for _ in range(LENGTH))
    return f"{signs[:4]}-{signs[4:]}"
