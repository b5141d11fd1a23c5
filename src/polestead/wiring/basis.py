"""The electrical code the wires follow: what it is taken to say, where it is known to differ, and what to ask whom."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Literal, cast

from polestead.base.source import Source, Status
from polestead.base.table import table
from polestead.homestead.model import Place
from polestead.wiring.guards.inside import FROM_A, FROM_V
from polestead.wiring.guards.shutdown import shutdown_of

Name = Literal["NEC", "Canada", "IEC"]
NAMES: tuple[Name, ...] = ("NEC", "Canada", "IEC")
ARCS_FROM_V = 80.0

EDITIONS: dict[Name, tuple[str, ...]] = {
    "NEC": ("NFPA 70, the National Electrical Code, 2020 and 2023",),
    "Canada": ("CSA C22.1, the Canadian Electrical Code, part I, 2021 and 2024",),
    "IEC": (
        "IEC 60364, the series, with 60364-7-712 for arrays",
        "IEC 62548 for the array, IEC 62446-1 for its tests",
        "a country's own standard stands over both",
    ),
}
EDITIONS_TAKEN = Source("editions the tables and rules were taken from", status="memory")
# Corners in whole degrees, wide: only so that a country's own questions are not left out (ours).
COUNTRIES = {
    "Ireland": ((51.0, 56.0), (-11.0, -5.0)),
    "United Kingdom": ((49.5, 61.0), (-8.5, 2.0)),
    "Australia": ((-44.0, -10.0), (112.0, 154.0)),
    "New Zealand": ((-48.0, -34.0), (166.0, 179.5)),
}


@dataclass(frozen=True, slots=True)
class Rule:
    """What a basis says on one topic, as far as it is known here.

    Attributes:
        topic: Of what.
        says: In our own words; never the text of the code.
        source: Where it stands, and whether it was read.
    """

    topic: str
    says: str
    source: Source


@dataclass(frozen=True, slots=True)
class Basis:
    """One code.

    Attributes:
        name: As the file writes it.
        editions: Taken here.
        rules: What it says for this job, topic by topic.
    """

    name: Name
    editions: tuple[str, ...]
    rules: tuple[Rule, ...]

    def on(self, topic: str) -> Rule:
        """Its rule on a topic.

        Raises:
            KeyError: It says nothing on it here.
        """
        for rule in self.rules:
            if rule.topic == topic:
                return rule
        raise KeyError(topic)


@dataclass(frozen=True, slots=True)
class Ask:
    """A question where a local rule is known to differ.

    Attributes:
        country: Whose; empty for every place on this basis.
        whom: To ring.
        question: To say.
        trap: In the reply, or in not asking.
        source: Why it is asked.
    """

    country: str
    whom: str
    question: str
    trap: str
    source: Source


def basis_of(name: Name) -> Basis:
    """What a basis is taken to say.

    Source: each rule has its own; those marked from memory were not read and are to be asked.

    Example:
        >>> basis_of("Canada").on("volts of a string").source.status
        'seen'
    """
    rules = tuple(
        Rule(row["topic"], row["says"].format(**_figures(name)), _source(row))
        for row in table("wiring", "basis")
        if row["basis"] == name
    )
    return Basis(name, EDITIONS[name], rules)


def countries_near(latitude_deg: float, longitude_deg: float) -> tuple[str, ...]:
    """Countries with questions of their own whose wide box holds the place; two where boxes overlap.

    Source: our own, to ask once too often rather than once too seldom.

    Args:
        latitude_deg: North of the equator.
        longitude_deg: East of Greenwich.

    Example:
        >>> countries_near(54.2, -8.2), countries_near(46.9, 8.2)
        (('Ireland', 'United Kingdom'), ())
    """
    return tuple(
        name
        for name, ((south, north), (west, east)) in COUNTRIES.items()
        if south <= latitude_deg <= north and west <= longitude_deg <= east
    )


def asks_of(place: Place, cold_v: float, in_house_m: float) -> tuple[Ask, ...]:
    """What to ask where a local rule is known to differ, those for every place first.

    Args:
        place: Its code, and where it lies.
        cold_v: Most a string shows at the record low [V].
        in_house_m: Of the run on or in a building [m].
    """
    near = countries_near(place.latitude_deg, place.longitude_deg)
    holds = {"": True, "arcs": cold_v >= ARCS_FROM_V, "in house": in_house_m > 0.0}
    found = [
        Ask(
            row["country"],
            row["whom"],
            row["question"].format(cold_v=cold_v),
            row["trap"].format(**_figures(place.wired_by)),
            _source(row),
        )
        for row in table("wiring", "asks")
        if row["basis"] == place.wired_by and holds[row["when"]] and row["country"] in ("", *near)
    ]
    return tuple(sorted(found, key=lambda ask: ask.country != ""))


def _figures(name: Name) -> dict[str, object]:
    """Figures that the sentences of a code name, from where the rules read them."""
    inside: dict[str, object] = {"from_v": FROM_V, "from_a": FROM_A}
    found = shutdown_of(name)
    return inside if found is None else {"left": found.left, **inside, **asdict(found)}


def _source(row: dict[str, str]) -> Source:
    return Source(row["source"], row["place"], cast("Status", row["status"]))
