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


BOTH = """
import threading, time
from polestead.base.quiet import solar_library
faults = []
def read(part, after_s):
    time.sleep(after_s)
    try:
        {begin}
    except ImportError as fault:
        faults.append(str(fault))
both = [threading.Thread(target=read, args=("iam", 0.0)), threading.Thread(target=read, args=("pvsystem", 0.1))]
[one.start() for one in both]
[one.join() for one in both]
print(faults)
"""


def begun_by_two(begin: str) -> str:
    return subprocess.run([sys.executable, "-W", "ignore", "-c", BOTH.format(begin=begin)], capture_output=True, text=True).stdout  # fmt: skip


def test_two_threads_that_begin_at_once_both_have_it_whole() -> None:
    assert begun_by_two("getattr(solar_library(), part)") == "[]\n"


def test_without_the_one_way_in_they_leave_each_other_half_of_it() -> None:
    told = begun_by_two("__import__('importlib').import_module('pvlib.' + part)")
    assert "partially initialized" in told
