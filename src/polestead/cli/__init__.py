"""The terminal; no formula, no default, no unit factor of its own."""


def main() -> int:
    """Entry point of the ``polestead`` command."""
    raise NotImplementedError
