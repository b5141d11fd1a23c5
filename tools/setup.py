"""Set the project up in this folder: a private uv, a private environment, the locked packages.

Needs nothing but Python 3.11 or newer with pip.  Run `python3 tools/setup.py`, or `make`, which calls it.
Add `--dev` for the tools that `make check` and `make test` use, `--browser` for Chromium as well.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
ENVIRONMENT = ROOT / ".venv"
PRIVATE = ROOT / ".uv"
SETTINGS = {"UV_SYSTEM_CERTS": "1", "UV_PYTHON_DOWNLOADS": "never", "UV_NO_PROGRESS": "1"}


def stop(sentence: str) -> None:
    """Tell what is missing and what to do, in one sentence, and end."""
    sys.exit(f"polestead set-up: {sentence}")


def run(*command: str | Path, quiet: bool = False) -> bool:
    """Run one command of the set-up; True when it succeeded."""
    done = subprocess.run(
        [str(part) for part in command],
        cwd=ROOT,
        env={**os.environ, **SETTINGS, "VIRTUAL_ENV": str(ENVIRONMENT)},
        stdout=subprocess.DEVNULL if quiet else None,
        stderr=subprocess.DEVNULL if quiet else None,
        check=False,
    )
    return done.returncode == 0


def private_uv() -> Path:
    """The project's own uv, fetched with pip the first time."""
    tool = PRIVATE / "bin" / "uv"
    if tool.exists():
        return tool
    if not run(sys.executable, "-m", "pip", "--version", quiet=True):
        stop(
            "this Python has no pip; install it (Debian: apt-get install python3-pip) and run again."
        )
    print("setting up: fetching uv", flush=True)
    bare = run(sys.executable, "-m", "venv", "--without-pip", PRIVATE, quiet=True)
    if bare and run(
        sys.executable,
        "-m",
        "pip",
        "--python",
        PRIVATE / "bin" / "python",
        "install",
        "-q",
        "uv>=0.9",
    ):
        return tool
    shutil.rmtree(PRIVATE, ignore_errors=True)
    if (
        run(sys.executable, "-m", "pip", "install", "-q", "--target", PRIVATE, "uv>=0.9")
        and tool.exists()
    ):
        return tool
    return stop(  # type: ignore[return-value]
        "could not fetch uv: either the package registry was not reached, or this Python has no venv module "
        "(Debian: apt-get install python3-venv)."
    )


def environment(uv: Path, dev: bool) -> None:
    """Bring the private environment to what the lock file says, when it is not there already."""
    lock = ROOT / ("requirements-dev.lock" if dev else "requirements.lock")
    mark = ENVIRONMENT / "set-up"
    wanted = (
        (ROOT / "requirements-dev.lock").read_text()
        + (ROOT / "pyproject.toml").read_text()
        + str(ROOT)
    )
    have = mark.read_text() if mark.exists() else ""
    if have in {"dev" + wanted} | (set() if dev else {"run" + wanted}):
        return
    print("setting up: installing the locked packages", flush=True)
    if not (ENVIRONMENT / "bin" / "python").exists() and not run(
        uv, "venv", "-q", "--python", sys.executable, ENVIRONMENT
    ):
        stop("could not make a private environment in .venv; remove that folder and run again.")
    if not run(uv, "pip", "sync", "-q", "--require-hashes", lock) or not run(
        uv, "pip", "install", "-q", "--no-deps", "-e", ROOT
    ):
        stop("the locked packages could not be installed; is the package registry reachable?")
    mark.write_text(("dev" if dev else "run") + wanted)


def browser() -> None:
    """Chromium and poppler from Debian's packages, for the tests that look at pages."""
    if shutil.which("chromium") and shutil.which("pdftoppm"):
        return
    if not shutil.which("apt-get") or os.geteuid() != 0:
        stop(
            "the page tests need Chromium and poppler; install them (Debian: apt-get install chromium poppler-utils)."
        )
    print("setting up: fetching Chromium and poppler", flush=True)
    run("apt-get", "update", "-qq", quiet=True)
    if not run("apt-get", "install", "-y", "-qq", "chromium", "poppler-utils", quiet=True):
        stop(
            "Chromium could not be installed; install it by hand (apt-get install chromium poppler-utils) and run again."
        )


def main(arguments: list[str]) -> None:
    """Check what must be there, then set up."""
    if sys.version_info < (3, 11):  # noqa: UP036  the point is to tell it kindly
        stop(
            f"Python 3.11 or newer is needed, this is {sys.version.split()[0]}; call make with PYTHON=python3.11."
        )
    dev = "--dev" in arguments
    environment(private_uv(), dev)
    if "--browser" in arguments:
        browser()


if __name__ == "__main__":
    main(sys.argv[1:])
