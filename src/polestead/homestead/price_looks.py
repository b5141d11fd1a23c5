"""What does not fit together in the prices: a line without a figure, hours without a person, a column named for no file."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import PurePath
from typing import Any

from polestead.base.problem import Problem

LONGEST_NAME = 60
AMOUNTS = "planned, quoted, paid or hours"


def _names(h: Any) -> Iterator[Problem]:
    named = [("prices.lines", name) for name in h.prices.lines]
    named += [("prices.bought_lines", name) for name in h.prices.bought_lines]
    for section, name in named:
        if not 0 < len(name) <= LONGEST_NAME or not name.isprintable():
            shown = "".join(letter if letter.isprintable() else "?" for letter in name)[:60]
            allowed = f"a name of one line, at most {LONGEST_NAME} letters"
            yield Problem(section, shown, f"a name of {len(name)} letters", allowed, "Say it shorter.")  # fmt: skip


def _entries(h: Any) -> Iterator[Problem]:
    for number, entry in enumerate(h.prices.entry, start=1):
        section = f"prices.entry.{number}"
        if all(value is None for value in (entry.planned, entry.quoted, entry.paid, entry.hours)):
            yield Problem(
                section, "", "a line with neither money nor hours", AMOUNTS, "Add one of them; a thing that costs nothing is 0."
            )  # fmt: skip
        if entry.rate is not None and entry.hours is None:
            yield Problem(
                section, "rate", f"{entry.rate:g}", "a rate beside hours", "Add the hours it is for; money goes under planned, quoted or paid."
            )  # fmt: skip


def _ledger_file(h: Any) -> Iterator[Problem]:
    name = h.prices.ledger
    if name is None:
        if h.prices.ledger_columns:
            yield Problem(
                "prices", "ledger_columns", "headings of a file", "headings beside ledger", 'Name the file:  ledger = "ledger.csv".'
            )  # fmt: skip
        return
    if PurePath(name).suffix.lower() not in (".csv", ".tsv", ".txt"):
        yield Problem(
            "prices", "ledger", name, "a text file with a line for each thing, .csv, .tsv or .txt",
            "Save the sheet as CSV (comma or semicolon between, UTF-8).",
        )  # fmt: skip


def _bought(h: Any) -> Iterator[Problem]:
    prices = h.prices
    beside = ("bought_lines", "bought_replaces", "bought_hours")
    key = next((key for key in beside if getattr(prices, key)), None)
    if prices.bought_mount is None and key is not None:
        yield Problem(
            "prices", key, "what goes with a bought mount", "bought_mount beside it", "Add its quote as bought_mount, or take this out."
        )  # fmt: skip
    if prices.ledger is None:
        own = {name.replace("_", " ") for name in prices.lines}
        own |= {entry.name.replace("_", " ") for entry in prices.entry}
        for name in prices.bought_replaces:
            if name.replace("_", " ") not in own:
                yield Problem(
                    "prices", "bought_replaces", name, "names of your own lines: " + (", ".join(sorted(own)) or "there is none yet"),
                    "Write it letter for letter as the line is named.",
                )  # fmt: skip


PRICE_LOOKS = (_names, _entries, _ledger_file, _bought)
