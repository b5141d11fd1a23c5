"""What was compiled is found again by the next process."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from polestead.base.compiled import compiled

LOOP = """
from polestead.base.compiled import compiled

@compiled
def doubled(one: float, many: int = 2, most: float = float("inf"), other: None = None) -> float:
    return min(one * many, most)
"""
ASK = "from loop import doubled; doubled(1.5); print(sum(doubled.stats.cache_hits.values()), sum(doubled.stats.cache_misses.values()))"


def test_a_second_process_takes_the_loop_from_disk(tmp_path: Path) -> None:
    (tmp_path / "loop.py").write_text(LOOP)
    told = [
        subprocess.run([sys.executable, "-c", ASK], cwd=tmp_path, capture_output=True, text=True, check=True).stdout.split()
        for _ in range(2)
    ]  # fmt: skip
    assert told == [["0", "1"], ["1", "0"]]


def test_a_default_that_is_never_found_again_is_refused() -> None:
    def loop(one: float, least: float = float("nan")) -> float:
        return max(one, least)

    with pytest.raises(ValueError, match="not a number"):
        compiled(loop)
