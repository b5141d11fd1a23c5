"""The basis kept beside the homestead file: read back only under the very key it was written with.

A key is the text of the file, of the weather file it names, and the program's version and form; anything else in the kept file,
or a kept file that cannot be read, counts as none.  Written whole or not at all.
"""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
import tomllib
import zipfile
from contextlib import suppress
from dataclasses import asdict, fields
from pathlib import Path
from typing import Any

import numpy as np

from polestead import __version__
from polestead.household.plan import Bank, HourOfTanks, Inside, Motor, Plan, Waiting
from polestead.morning.basis import Basis, Facts
from polestead.morning.card import Card
from polestead.mount.schedule import TiltSchedule
from polestead.site.gusts import GustClimate

FORM = 4  # of the kept file
ENDING = ".morning"
_ARRAYS = ("tilts_deg", "power", "old_w", "air_c", "clearness", "fresh_m", "sundown_h", "sunup_h", "sky_off", "dawn_charge", "dawn_charge_sd")  # fmt: skip


def key_of(text: bytes, folder: Path) -> str:
    """What the kept file must carry to be trusted.

    Args:
        text: Of the homestead file.
        folder: It lies in.
    """
    found = hashlib.sha256(f"{FORM} {__version__} {len(text)} ".encode() + text)
    with suppress(OSError, ValueError, AttributeError, TypeError, RecursionError):
        name = tomllib.loads(text.decode("utf-8-sig")).get("climate", {}).get("file")
        if name:
            found.update((folder / name).read_bytes())
    return found.hexdigest()


def kept_path(homestead: Path, writable_beside: bool = True) -> Path:
    """Where the basis of a homestead file is kept: beside it, or for a demo in the user's own cache.

    Example:
        >>> kept_path(Path("spruce.toml")).name
        'spruce.morning'
    """
    if writable_beside:
        return homestead.with_suffix(ENDING)
    cache = os.environ.get("XDG_CACHE_HOME") or str(Path.home() / ".cache")
    return Path(cache) / "polestead" / f"{homestead.stem}{ENDING}"


def read_kept(path: Path, key: str) -> Basis | None:
    """The basis kept under this key; None for no such file, another key, or a file that cannot be read whole."""
    try:
        with path.open("rb") as file, np.load(file, allow_pickle=False) as kept:
            told = json.loads(str(kept["told"]))
            if told.get("key") != key:
                return None
            return _basis(told, {name: kept[name] for name in kept.files if name != "told"})
    except (OSError, ValueError, KeyError, TypeError, AttributeError, EOFError, zipfile.BadZipFile):
        return None


def keep(path: Path, key: str, basis: Basis) -> bool:
    """Write the basis under its key, whole or not at all; False where the place may not be written."""
    plan = basis.plan
    told = {
        "key": key,
        "facts": asdict(basis.facts),
        "card": asdict(basis.card),
        "climate": asdict(basis.climate),
        "moves": [basis.moves.name, basis.moves.moves],
        "bank": plan.bank._asdict() | {"hour": list(plan.bank.hour)},
        "inside": plan.inside._asdict(),
        "motor": plan.motor._asdict(),
        "first_day": basis.first_day,
        "peak_w": basis.peak_w,
    }
    arrays: dict[str, Any] = {name: getattr(basis, name) for name in _ARRAYS}
    arrays |= {f"waiting_{name}": value for name, value in plan.waiting._asdict().items()}
    arrays |= {f"plan_{name}": getattr(plan, name) for name in ("limits_a", "efficiencies", "uses_w", "month", "hour_of_day", "column")}  # fmt: skip
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
        try:
            with os.fdopen(handle, "wb") as file:
                np.savez(file, told=np.array(json.dumps(told)), **arrays)
            os.replace(temporary, path)
        except BaseException:
            with suppress(OSError):
                os.unlink(temporary)
            raise
    except OSError:
        return False
    return True


def _basis(told: dict[str, Any], arrays: dict[str, Any]) -> Basis:
    bank = told["bank"]
    plan = Plan(
        Bank(**(bank | {"hour": HourOfTanks(*bank["hour"])})),
        Inside(**told["inside"]),
        Motor(**(told["motor"] | {"boils_l_h": tuple(told["motor"]["boils_l_h"])})),
        Waiting(*(arrays[f"waiting_{name}"] for name in Waiting._fields)),
        *(arrays[f"plan_{name}"] for name in ("limits_a", "efficiencies", "uses_w", "month", "hour_of_day", "column")),
    )  # fmt: skip
    name, moves = told["moves"]
    climate = told["climate"]
    return Basis(
        facts=Facts(**_tuples(told["facts"], Facts)),
        card=Card(**_tuples(told["card"], Card)),
        climate=GustClimate(climate["fifty_year_m_s"], tuple(climate["everyday_mean_m_s"]), tuple(climate["share_by_month"]), climate["source"]),
        moves=TiltSchedule(name, tuple((day, tilt) for day, tilt in moves)),
        plan=plan,
        first_day=told["first_day"],
        peak_w=told["peak_w"],
        **{name: arrays[name] for name in _ARRAYS},
    )  # fmt: skip


def _tuples(given: dict[str, Any], kind: type) -> dict[str, Any]:
    """Lists made tuples again; a missing or unknown field is a TypeError further on."""
    known = {field.name for field in fields(kind)}
    if set(given) != known:
        message = "fields of another form"
        raise KeyError(message)
    return {key: tuple(value) if isinstance(value, list) else value for key, value in given.items()}
