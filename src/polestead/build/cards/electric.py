"""Cards of the wires and of the first travel."""

from __future__ import annotations

from typing import Literal

import numpy as np

from polestead.build.cards.card import AsBuilt, Card, CardStep, Figure
from polestead.build.cards.known import Known, card, count, in_chunks, stance_lines, text
from polestead.mount.geometry import lowest_edge_m, top_height_m
from polestead.mount.linkage import move_time_s
from polestead.wiring.drawn.form import TestStep

LIVE = "Take every lead for live in any light: an arc of direct current does not die."


def wire_cards(k: Known) -> tuple[Card, ...]:
    """Strings on the frame; then the boxes."""
    g, w = k.given, k.wires
    asks = (f"{len(w.guards.asks)} readings off labels, on the technician's leaf: until then the breaker is not passed",) if w.guards.asks else ()  # fmt: skip
    strings = card(
        "wire", "Wire: the strings",
        [
            text(f"{g.array.in_parallel} of {g.array.in_series}", "strings, and modules in each"),
            Figure(w.cold_with_margin_v, "V", "a string at the record low, with margin", way="up"),
            Figure(k.form.limit_v, "V", "the controller's limit", way="down"),
            text(g.earth_wire or "ask", "earth wire, with the run all the way"),
        ],
        (
            CardStep("Open and lock every switch; fuses out; glass covered, array flat, locked.", LIVE),
            CardStep("Earth wire first: frame, strongback, pole, boxes, to the house.", "Never the rod at the pole instead of it."),
            CardStep("Join modules by the string map; click each connector and pull it.", "Part no connector under load, and mate no two makes."),
            CardStep("Make the loop at the hinge: clamped at both ends, into the box from below."),
        ),
        sketch="strings",
        as_built=(AsBuilt("modules' series fuse", "array.module.series_fuse"),),
    )  # fmt: skip
    boxes = card(
        "wire", "Wire: the boxes",
        [
            Figure(w.full_sun_a, "A", "on the run in full sun"),
            text(f"{g.run.size} {g.run.metal}", "run, both live wires"),
            Figure(g.run.breaker_a or w.breaker_a, "A", "breaker, for direct current"),
            Figure(w.cold_with_margin_v, "V", "everything in the boxes bears this", way="up"),
        ],
        (
            CardStep("Set switch, arrestor and breaker in the order of the one-line.", "Insulated tools, one pole at a time; nobody alone."),
            CardStep("Leave the strings out of their terminals."),
            CardStep("Guard what can be reached; engrave and fix the labels."),
            CardStep("Seal every gland against water and mice."),
        ),
        sketch="boxes", goes_on=True, missing=asks,
        as_built=(
            AsBuilt("breaker", "run.breaker"),
            AsBuilt("bears, DC", "run.breaker_bears"),
            AsBuilt("breaks", "run.breaker_breaks"),
            AsBuilt("earth wire", "run.earth_size"),
        ),
    )  # fmt: skip
    return (strings, boxes)


def tests_cards(k: Known) -> tuple[Card, ...]:
    """By the form, nothing closed before all has passed; then closed."""
    g, form = k.given, k.form
    at = next(nth for nth, one in enumerate(form.steps) if one.act == "close")
    before = in_chunks([_tested(one) for one in form.steps[:at]], TEST_LINES)
    volts = Figure(g.array.in_series * g.array.module.open_circuit_voltage_v, "V", "a string, open, 25 C (77 F), full sun")  # fmt: skip
    figures = [
        volts,
        Figure(g.array.module.short_circuit_current_a, "A", "a string, short, in full sun"),
        Figure(form.cold_with_margin_v, "V", "the string at the record low", way="up"),
        Figure(form.limit_v, "V", "the controller's limit", way="down"),
    ]  # fmt: skip
    insulation = [
        *figures[2:],
        Figure(form.insulation.test_v, "V", "the insulation tester is set to"),
        Figure(form.insulation.least_ohm / 1e6, "Mohm", "insulation, no less"),
        text("5 of 100", "strings no further apart, in like light"),
    ]
    as_built = (AsBuilt("a module's open volts", "array.module.open_circuit_voltage"),)
    acts = iter(form.steps)
    named = [[next(acts).act for _ in chunk] for chunk in before]
    cards = [
        card(
            "test", f"Test: {named[nth][0]} to {named[nth][-1]}", figures if nth == 0 else insulation, chunk, sketch="probes",
            gate="wiring" if nth == len(before) - 1 else "", goes_on=nth > 0, as_built=as_built if nth == 0 else (),
        )
        for nth, chunk in enumerate(before)
    ]  # fmt: skip
    closed = card(
        "test", "Test: close it",
        [
            Figure(form.limit_v, "V", "the controller's limit: never over it", way="down"),
            Figure(k.wires.full_sun_a, "A", "on the run in full sun"),
            count(len(form.strings), "strings"),
        ],
        tuple(_tested(one) for one in form.steps[at:]), sketch="boxes", goes_on=True,
        notes=("The readings are kept with the test form: they are the baseline.",),
    )  # fmt: skip
    return (*cards, closed)


TEST_LINES = 16


def _tested(one: TestStep) -> CardStep:
    return CardStep(f"{_VERBS[one.act]}. Passes: {one.passes}.", one.caution)


_VERBS = {
    "look": "Look it all over, every switch open",
    "earth wire": "Prove the earth wire, from every frame to the house",
    "polarity": "Prove polarity of each string at its bare ends",
    "open volts": "Read open volts of each string, light and cell temperature beside them",
    "cold volts": "Work out what each reading becomes at the record low",
    "short amps": "Read short-circuit current of each string through a switch",
    "insulation": "Test the insulation, arrestors and controller off",
    "close": "Close the battery's breaker first, then the array's",
    "function": "Read watts at the controller against the form; try each switch once",
}


def travel_cards(k: Known) -> tuple[Card, ...]:
    """Once over the whole travel; then measured and locked."""
    return (_first(k), _measured(k))


def _first(k: Known) -> Card:
    geometry = k.given.geometry
    ends = np.array([geometry.least_tilt_deg, geometry.steepest_tilt_deg])
    figures = [
        Figure(geometry.least_tilt_deg, "deg", "flattest"),
        Figure(geometry.steepest_tilt_deg, "deg", "steepest"),
        Figure(float(lowest_edge_m(geometry, ends)[1]), "m", "low edge at the steepest"),
        Figure(float(top_height_m(geometry, ends)[1]), "m", "top edge at the steepest"),
    ]
    if k.stand.move_under_m_s is not None:
        figures.append(Figure(k.stand.move_under_m_s, "m/s", "move only under this gust"))
    steps = (
        CardStep("Walk round it: rod pinned and cottered at both ends, nothing leaning on it, no snow, calm.", "Everyone and every animal from under it; one at the switch, one watches; both see all of it."),
        CardStep(f"{_holds(k)}Move five degrees and stop: motor, noise, ampere; hinge, loop, ears.", "Hands out of the hinge: from now on only the rod holds it."),
        CardStep("Go in steps to the flattest, then the steepest; watch edge, pole and loop."),
        CardStep("Let go of the key at once if the current climbs."),
        CardStep("Let each limit switch stop it; try the hand stop; set the hard stops."),
    )  # fmt: skip
    missing = () if k.given.drive is not None else ("the actuator ([drive]): its rod, speed and the gust to move in",)  # fmt: skip
    return card("first travel", "First travel: once over", figures, steps, sketch="travel", missing=missing)  # fmt: skip


def _holds(k: Known) -> str:
    """What is drawn before the rod may move it."""
    there = [name for name, hold in (("prop", k.given.prop), ("storm hold", k.given.lock)) if hold is not None]  # fmt: skip
    words = ", then ".join(there)
    return f"{words[0].upper()}{words[1:]} out, from the side. " if words else ""


def _measured(k: Known) -> Card:
    g = k.given
    geometry, missing = g.geometry, []
    figures = [text(f"{geometry.least_tilt_deg:g}° to {geometry.steepest_tilt_deg:g}°", "travel")]
    if k.gauge is not None and g.drive is not None:
        flat, steep = k.gauge.stops
        rod: Literal["proved", "unproved"] = "proved" if k.gauge.proved else "unproved"
        figures += [Figure(flat.rod_m, "m", "rod at the flattest stop", rod=rod), Figure(steep.rod_m, "m", "rod at the steepest stop", rod=rod)]  # fmt: skip
        seconds = move_time_s(g.drive, geometry.least_tilt_deg, geometry.steepest_tilt_deg)
        if seconds is None:
            missing.append("the drive's speed (drive.speed): no seconds without it")
        else:
            figures.append(Figure(seconds, "s", "whole travel, rated; more in the cold"))
        if not k.gauge.proved:
            missing.append("two measured pairs of rod and tilt (drive.measured)")
    if g.lock is not None and not g.lock.holes_deg:
        missing.append("tilts at which the storm hold's pin finds a hole (lock.holes)")
    figures += [Figure(line.tilt_deg, "deg", line.name) for line in stance_lines(k) if line.name != "working"][: 6 - len(figures)]  # fmt: skip
    steps = (
        CardStep("Measure rod and tilt by level at six places, both ends among them."),
        CardStep("Lock it at each hole, pin through without force; mark gauge and file."),
        CardStep("Leave it locked at storm flat.", "Leave it to no wind on the rod alone."),
    )
    return card(
        "first travel", "First travel: measure and lock", figures, steps, sketch="rod", goes_on=True,
        as_built=(
            AsBuilt("rod and tilt, pairs", "drive.measured"),
            AsBuilt("flattest by level", "mount.least_tilt"),
            AsBuilt("steepest by level", "mount.steepest_tilt"),
            AsBuilt("pin goes in at", "lock.holes"),
            AsBuilt("lock rattles by", "lock.play"),
        ),
        missing=tuple(missing),
    )  # fmt: skip
