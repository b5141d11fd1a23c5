"""The first demo, 100 years, with and without the array, in a fresh process: six seconds over what it takes."""

from __future__ import annotations

import subprocess
import sys
import time

WANTED_S = 6.0
COMMAND = [
    sys.executable,
    "-c",
    "from polestead.cli import main; main(['answer', 'hollow-spruce', '--years', '100'])",
]


def run() -> list[tuple[str, float, float]]:
    """(name, ratio, wanted); the first run only fills the caches."""
    spans = []
    for _ in range(4):
        begun = time.perf_counter()
        subprocess.run(COMMAND, check=True, capture_output=True)
        spans.append(time.perf_counter() - begun)
    return [
        ("answer, 100 years, fresh process, against six seconds", WANTED_S / min(spans[1:]), 1.0)
    ]
