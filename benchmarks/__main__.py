"""Run every benchmark of this folder and print one line each."""

from __future__ import annotations

import importlib
import pkgutil
import sys

import benchmarks


def main() -> int:
    """Print name, ratio and what was wanted; 1 when a ratio falls short."""
    short = False
    for module in pkgutil.iter_modules(benchmarks.__path__):
        if module.name.startswith("_"):
            continue
        for name, ratio, wanted in importlib.import_module(f"benchmarks.{module.name}").run():
            short |= ratio < wanted
            print(
                f"{name:<60} {ratio:8.1f} times   wanted {wanted:g}{'   SHORT' if ratio < wanted else ''}"
            )
    return int(short)


if __name__ == "__main__":
    sys.exit(main())
