"""The solar library is read in quietly, also while another thread puts the filters of warnings back."""

from __future__ import annotations

import subprocess
import sys

READ_IN = """
import warnings
{first}
warnings.simplefilter = lambda *_, **__: None  # what the other thread's putting back comes to
warnings.filterwarnings("error", message="SOCKS")
from pvlib import iam
print("read in")
"""


def read_in(first: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", READ_IN.format(first=first)], capture_output=True, text=True
    )


def test_nothing_warns_of_a_proxy_nobody_uses() -> None:
    first = "from polestead.base.quiet import quiet_network_library as quiet; quiet()"
    quiet = read_in(first)
    assert (quiet.stdout, quiet.stderr) == ("read in\n", "")


def test_without_it_the_warning_would_have_been_an_error() -> None:
    assert "SOCKS support" in read_in("").stderr
