"""The morning: decided within .15 s, said from a cold terminal within 1.5 s, against those spans; ahead on compiled loops against plain."""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from datetime import datetime
from pathlib import Path

from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.morning.basis import basis_of
from polestead.morning.decide import morning_of
from polestead.morning.forecast.words import read_heard
from polestead.morning.seen import Reading, Seen

DECIDED_S = 0.15
SAID_S = 1.5
AT = datetime(2026, 11, 25, 7, 10)
HEARD = "clear, 20 to 30 F, gusts 15 mph by dark, gusts 60 mph after dark, 4 in snow tonight"


def run() -> list[tuple[str, float, float]]:
    """(name, ratio, wanted); the first of each only fills the caches."""
    basis = basis_of(read_homestead(demo_path("hollow-spruce")))
    seen, told = Seen(AT, lies=Reading(62.0), charge=Reading(0.78)), read_heard(HEARD, AT.date())
    decided = []
    for _ in range(6):
        begun = time.perf_counter()
        morning_of(basis, seen, told)
        decided.append(time.perf_counter() - begun)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "spruce.toml"
        path.write_bytes(demo_path("hollow-spruce").read_bytes())
        command = [
            sys.executable, "-c", "from polestead.cli import main; raise SystemExit(main())", "morning", str(path), "--heard", HEARD, "--lies", "62",
            "--charge", "78 %", "--today", "2026-11-25", "--at", "7:10",
        ]  # fmt: skip
        said = []
        for _ in range(4):
            begun = time.perf_counter()
            if (
                subprocess.run(command, check=False, capture_output=True).returncode > 1
            ):  # 1: a stop
                raise RuntimeError(command)
            said.append(time.perf_counter() - begun)
    return [
        ("the morning decided, against .15 s", DECIDED_S / min(decided[1:]), 1.0),
        ("the morning line, fresh process, against 1.5 s", SAID_S / min(said[1:]), 1.0),
    ]
