"""The sections of the homestead file.  Field names are SI with the unit last; the file's keys leave the unit off.

A scalar field takes a plain value (planned), or a table with ``built``/``on``, ``said``/``asked_of``/``on`` or
``assumed``/``why``; reading puts the value that counts into the model and the rest into the rows.
"""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import AfterValidator, BeforeValidator, Field

from polestead.base.cells import IRON_HEAT_J_KG_K, IRON_WH_PER_KG, cells_in_series
from polestead.homestead.columns import Meaning, column_sentence
from polestead.homestead.fields import (
    Angle,
    Charge,
    Current,
    Force,
    Forms,
    FuelRate,
    Latitude,
    Length,
    Longitude,
    Mass,
    Power,
    Pressure,
    Section,
    Share,
    SharePerDegree,
    Speed,
    Temperature,
    Time,
    Voltage,
    Volume,
    ask,
    default,
    left_out,
    none_of,
)
from polestead.homestead.sentences import (
    battery_row,
    battery_sentence,
    conductor_words,
    move_sentence,
    move_words,
    pole_words,
    price_per_l,
    price_per_m,
    rod_sentence,
    rod_words,
    skyline_sentence,
    skyline_words,
    tube_sentence,
    use_sentence,
    use_words,
)
from polestead.homestead.words import BatteryTableRow, PoleWords, SkylineReading, Use

PRACTICE = "common practice, no source"
Pole = Annotated[PoleWords, BeforeValidator(pole_words)]
Tube = Annotated[str, AfterValidator(tube_sentence)]
UseSentence = Annotated[str, AfterValidator(use_sentence)]
ConductorSize = Annotated[str, BeforeValidator(conductor_words)]
PricePerLitre = Annotated[
    float,
    BeforeValidator(price_per_l),
    Forms('a price with its unit, as "2.60 per gal" or "1.45 per l"'),
]
PricePerMetre = Annotated[
    float,
    BeforeValidator(price_per_m),
    Forms('a price with its unit, as "3.10 per ft" or "9 per m"'),
]
SkylineSentence = Annotated[str, AfterValidator(skyline_sentence)]
MoveSentence = Annotated[str, AfterValidator(move_sentence)]
BatterySentence = Annotated[str, AfterValidator(battery_sentence)]
RodSentence = Annotated[str, AfterValidator(rod_sentence)]
ColumnSentence = Annotated[str, AfterValidator(column_sentence)]
MonthName = Literal[
    "jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"
]
Money = Annotated[float, Field(ge=-1e8, le=1e8)]

Part = Literal[
    "array",
    "pole and frame",
    "drive and lock",
    "footing",
    "wires",
    "controller and guards",
    "tools and hire",
    "papers",
    "grants",
    "other",
]
LedgerColumn = Literal[
    "name", "part", "planned", "quoted", "paid", "on", "hours", "by", "rate", "note"
]

SoilClass = Literal[
    "sandy gravel or gravel",
    "sand, silty or clayey sand or gravel",
    "clay or silt",
    "fill",
    "peat or mud",
    "rock",
]


class HillInWind(Section):
    """A hill, ridge or escarpment the wind must climb (ASCE 7, 26.8); under Eurocode write topographic_factor instead."""

    shape: Literal["ridge", "escarpment", "round hill"]
    height_m: Length = Field(gt=1.0, le=2000.0, description="Crest over the plain upwind.")
    half_length_m: Length = Field(
        gt=1.0, le=20000.0, description="From the crest to where the ground upwind is half as high."
    )
    from_crest_m: Length = Field(ge=0.0, le=20000.0, description="From crest to pole, level.")
    side: Literal["upwind of the crest", "beyond the crest"] = default(
        "upwind of the crest", PRACTICE, "Where the pole stands, for the wind that climbs."
    )


class Place(Section):
    """Where it stands, and the facts of the place; none of them has a default."""

    latitude_deg: Latitude = Field(ge=-60.0, le=72.0)
    longitude_deg: Longitude = Field(ge=-180.0, le=180.0)
    elevation_m: Length = Field(ge=-430.0, le=5000.0)
    clock_offset_hours: float | None = left_out(
        "the nearest whole hour by longitude",
        PRACTICE,
        "Local standard time minus UTC.",
        ge=-12.0,
        le=14.0,
    )
    wind_speed_m_s: Speed = ask(
        "the county building office, or the code's wind map",
        "What is the basic wind speed for a risk category II structure here, three-second gust, and which edition?",
        "An old map (fastest mile, or allowable level) gives a much lower figure: ask for the edition.",
        ge=20.0,
        le=95.0,  # 212 mph: over every map; 107 m/s is a slip of the unit
    )
    wind_basis: Literal["ASCE 7-16", "ASCE 7-22", "EN 1991-1-4"] = default(
        "ASCE 7-16",
        PRACTICE,
        "Edition of the wind and snow maps; ask the building office. Under EN 1991-1-4 the speed is v_b, a ten-minute mean, "
        "the snow s_k, and steel and soil follow the Eurocodes.",
    )
    electrical_code: Literal["NEC", "Canada", "IEC"] | None = left_out(
        "IEC under EN 1991-1-4, else NEC", PRACTICE, "Code the wires follow; ask the inspector. Canada: CSA C22.1.",
    )  # fmt: skip
    risk_category: Literal["I", "II", "III", "IV"] = default(
        "II", "ASCE 7-16, Table 1.5-1", "What the map's speed was read for; a farm array is II unless the office says I."
    )  # fmt: skip
    exposure: Literal["B", "C", "D", "0", "I", "II", "III", "IV"] = ask(
        "your own eyes, half a mile (800 m) upwind each way, then the building office",
        "Is the ground around open (C), wooded or built for 1,500 ft (460 m) all round (B), or open water (D)? "
        "Under Eurocode: terrain category 0 (sea), I, II (open), III (villages, woods) or IV (town).",
        "A clearing in woods is C unless 1,500 ft (460 m) of woods stand upwind in every direction.",
    )
    rough_ground_m: Length | None = left_out(
        "exposure taken as written",
        "ASCE 7-16, 26.7.3",
        "How far woods or houses reach where they reach least; under 1,500 ft (460 m) exposure B is taken as C.",
        ge=0.0,
        le=50000.0,
    )
    ground_slope_deg: Angle = default(
        "0 deg", PRACTICE, "Slope of the ground at the pole; wind follows it, so the array may meet it so much steeper or flatter.",
        ge=0.0, le=45.0,
    )  # fmt: skip
    topographic_factor: float = default(
        1.0,
        "ASCE 7-16, 26.8.2; EN 1991-1-4, 4.3.3",
        "Kzt on flat ground; under Eurocode c0 on the speed. A hill makes it larger: ASCE 7 works it out from [place.hill].",
        ge=1.0,
        le=3.0,
    )
    hill: HillInWind | None = None
    ice_thickness_m: Length | None = left_out(
        "no freezing rain", PRACTICE, "Design ice thickness of the map (ASCE 7 chapter 10).", gt=0.0, le=0.15
    )  # fmt: skip
    ice_gust_m_s: Speed | None = left_out(
        "40 mph", "ASCE 7-16, Fig. 10.5-1 (from memory)", "Gust that comes with the ice, of the same map.", ge=5.0, le=60.0
    )  # fmt: skip
    ground_snow_pa: Pressure = ask(
        "the county building office",
        "What is the ground snow load here, and is it the 50-year load (7-16) or the strength load (7-22)?",
        "The two differ by about 1.6 times.",
        ge=0.0,
        le=25000.0,
    )
    record_low_c: Temperature = ask(
        "the weather office or the nearest airport",
        "What is the lowest temperature on record here?",
        "The 99.6 % design temperature is not the record low; it is much warmer.",
        ge=-70.0,
        le=20.0,
    )
    frost_depth_m: Length = ask(
        "the county building office",
        "How deep must footings go for frost?",
        "Under a snow-free spot frost goes deeper than under a house.",
        ge=0.0,
        le=4.0,
    )
    soil: SoilClass = ask(
        "your own auger hole to pier depth, then the building office",
        "What soil class may I take for a pole footing at this spot?",
        "Fill, peat, mud, rock and slopes have no class here: they need an engineer.",
    )
    frost_soil: Literal["drained, not frost-susceptible", "silt or clay"] = ask(
        "your own auger hole, then a soils laboratory or the building office",
        "Are less than 3 % of the grains finer than 0.02 mm, and does the hole drain?",
        "Silt is the worst: it lifts piers.",
    )
    water_depth_m: Length | None = left_out(
        "deeper than the pier", PRACTICE, "Water in the hole in the wettest month, below the ground: it makes soil and concrete lighter.", ge=0.0, le=30.0
    )  # fmt: skip
    undrained_strength_pa: Pressure | None = left_out(
        "40 kPa, low, where the soil is clay or silt",
        "ours",
        "Undrained shear strength of clay where it was tested.",
        ge=5e3,
        le=500e3,
    )

    @property
    def wired_by(self) -> Literal["NEC", "Canada", "IEC"]:
        """The electrical code that counts."""
        if self.electrical_code is not None:
            return self.electrical_code
        return "IEC" if self.wind_basis == "EN 1991-1-4" else "NEC"

    def without_effect(self) -> frozenset[str]:
        """A hill is worked out by ASCE 7 only; ice has its gust only where there is ice; grains have no undrained strength."""
        idle = set() if self.ice_thickness_m is not None else {"ice_gust_m_s"}
        idle |= set() if self.soil == "clay or silt" else {"undrained_strength_pa"}
        if self.wind_basis == "EN 1991-1-4":
            idle |= {"ice_thickness_m", "ice_gust_m_s", "risk_category", "rough_ground_m"}
        return frozenset(idle | ({"topographic_factor"} if self.hill is not None else set()))

    height_limit_m: Length | None = left_out(
        "no limit checked",
        PRACTICE,
        "Ask the zoning office; measured at the steepest tilt.",
        gt=1.0,
        le=30.0,
    )
    setback_m: Length | None = left_out(
        "no setback told on the cards", PRACTICE, "Ask the zoning office; from boundary or road to the nearest part of the array.", ge=0.0, le=500.0
    )  # fmt: skip


class Climate(Section):
    """Where the weather comes from."""

    source: Literal["table", "months", "file"] = default(
        "table",
        "the shipped one-degree table",
        "Neither a weather file nor monthly figures were given.",
    )
    file: str | None = Field(
        default=None, description="EPW or TMY3 file, relative to the homestead file."
    )
    snow_on_ground: tuple[int, ...] = none_of(
        "never",
        PRACTICE,
        "Months (1 to 12) in which snow usually lies on the ground; it throws light up.",
    )
    sky: Literal["hay-davies", "perez"] = default(
        "hay-davies",
        "Hay & Davies 1980; Perez et al. 1990",
        "How the sky's own light is spread; perez brightens the horizon as well.",
    )
    snowfall_m: Length | None = left_out(
        "a rough rule from cold and dull days, good to half and double",
        "ours",
        "Fresh snow of a mean winter, all falls added up; the weather office knows it.",
        ge=0.0,
        le=30.0,
    )
    sun_kwh_m2_day: tuple[float, ...] = Field(
        default=(),
        description="Twelve bare numbers, January first: mean sun on level ground, kWh/m2 a day.",
    )
    air_by_month_c: tuple[Temperature, ...] = none_of(
        "the table's",
        PRACTICE,
        "Twelve monthly mean temperatures, January first; only with monthly figures of the sun.",
    )

    def without_effect(self) -> frozenset[str]:
        """The owner's temperatures count beside his own sun only; snow lies in a weather file's months as well."""
        return frozenset() if self.source == "months" else frozenset({"air_by_month_c"})


class Obstacle(Section):
    """A piece of the skyline: from one bearing to another, so high."""

    from_bearing_deg: Angle = Field(ge=0.0, le=360.0)
    to_bearing_deg: Angle = Field(ge=0.0, le=360.0)
    height_deg: Angle = Field(ge=0.0, le=90.0)
    what: Literal["ground", "trees"] = default(
        "ground", PRACTICE, "Ground, hills and buildings let nothing through."
    )
    lets_through_summer: Share = default(
        "20 %", PRACTICE, "Light through a crown in leaf; trees only.", ge=0.0, le=1.0
    )
    lets_through_winter: Share = default("50 %", PRACTICE, "Light through a bare crown; evergreens: the summer value.", ge=0.0, le=1.0)  # fmt: skip

    away_m: Length | None = left_out(
        "far enough that eye and array see it alike", PRACTICE,
        "How far it stands from the pole; then its height is turned from your eye to the array.",
        gt=0.5, le=20000.0,
    )  # fmt: skip
    grows_m: Length = default(
        "0 in", PRACTICE, "How much it grows in a year; trees only, with `away`.", ge=0.0, le=3.0
    )

    def without_effect(self) -> frozenset[str]:
        """Ground lets nothing through, whatever stands there, and does not grow; growth needs a distance."""
        idle = (
            set()
            if self.what == "trees"
            else {"lets_through_summer", "lets_through_winter", "grows_m"}
        )
        return frozenset(idle | ({"grows_m"} if self.away_m is None else set()))


class View(Section):
    """What stands between the array and the sky, in spans or as readings with compass and fist."""

    skyline: tuple[Obstacle, ...] = none_of(
        "open all round",
        PRACTICE,
        "Hills and trees take the low winter sun: measure them with compass and fist.",
    )
    readings: tuple[SkylineSentence, ...] = none_of(
        "none",
        PRACTICE,
        'Compass and fist, in order round the horizon, as "140 deg, 2.5 fists, trees"; straight lines between neighbours.',
    )
    bearings: Literal["true", "magnetic"] = default(
        "true", PRACTICE, "Whether bearings are from true north, or as a compass shows them."
    )
    read_on: date | None = Field(
        default=None,
        description="Day the compass was read, as 2026-09-14; needed for magnetic bearings.",
    )
    fist_deg: Angle = default("10 deg", PRACTICE, "Your own fist at arm's length: nine and a bit from level to straight up.", gt=5.0, le=15.0)  # fmt: skip
    eye_m: Length = default(
        "1.6 m", PRACTICE, "Height of your eye when you read it.", ge=0.0, le=15.0
    )

    @property
    def reading_list(self) -> tuple[SkylineReading, ...]:
        """The readings as read from their sentences."""
        return tuple(skyline_words(line) for line in self.readings)


class Spot(Section):
    """Another place on the ground the pole could stand; what is left out is as in the rest of the file."""

    name: str = Field(min_length=1, max_length=60)
    run_length_m: Length = Field(gt=0.5, le=3000.0, description="One way to the controller, with the rises.")  # fmt: skip
    view: View = View()
    soil: SoilClass | None = left_out("as [place]", PRACTICE, "Soil class at this spot.")
    frost_soil: Literal["drained, not frost-susceptible", "silt or clay"] | None = left_out(
        "as [place]", PRACTICE, "Whether frost lifts the soil at this spot."
    )
    height_limit_m: Length | None = left_out(
        "as [place]", PRACTICE, "Where another limit holds, near a line or a road.", gt=1.0, le=30.0
    )


class Battery(Section):
    """The bank that is there."""

    kind: Literal["flooded lead-acid", "sealed lead-acid", "lithium iron phosphate"]
    nominal_v: Voltage = Field(gt=5.0, le=1000.0)
    capacity_ah: Charge = Field(
        gt=5.0, le=50000.0, description="At the 20 h rate for lead-acid, rated for lithium."
    )
    health: Share = default(
        "100 %", PRACTICE, "Capacity left, of new; a tired bank has less.", gt=0.1, le=1.0
    )
    temperature_c: Temperature | None = left_out(
        "as outdoors, a day behind",
        PRACTICE,
        "Of the battery's room; write it for a cellar or a heated room.",
        ge=-40.0,
        le=45.0,
    )
    cells: int | None = left_out(
        "by its name: 2 V a lead cell; lithium 3.2 V a cell, and 4 cells for every 12 V",
        PRACTICE,
        "Cells in series, where its maker says another count, as 15 in a 48 V lithium bank.",
        ge=1,
        le=500,
    )
    charge_limit_a: Current | None = left_out(
        "a fifth of the capacity an hour",
        PRACTICE,
        "The maker's largest charging current.",
        gt=0.0,
        le=10e3,
    )
    lowest_charge: Share = default(
        "50 %", PRACTICE, "The house is cut off below this.", ge=0.0, lt=1.0
    )
    absorb_v_per_cell: float = default(2.45, PRACTICE, "Lead-acid only.", ge=2.3, le=2.6)  # fmt: skip
    gives: tuple[BatterySentence, ...] = none_of(
        "a usual table of its kind",
        PRACTICE,
        'The maker\'s discharge table at 25 °C, at least four lines, as "740 Ah in 20 h".',
    )
    equalize_every_days: float | None = left_out(
        "never in the years worked; volts and openings are rated for it all the same",
        PRACTICE,
        "Flooded lead-acid: the maker's days between two equalizing charges.",
        ge=7.0,
        le=400.0,
    )
    equalize_v_per_cell: float = default(
        2.58, PRACTICE, "Flooded lead-acid: at 25 C, while it is equalized.", ge=2.4, le=2.8
    )
    never_equalized: bool = default(
        False, PRACTICE, "Flooded lead-acid: neither by hand nor by a controller; then nothing is rated for it."
    )  # fmt: skip
    follows_air_s: Time = default(
        "24 h", "assumed", "How slowly a bank in a shed follows the air; a lagged box is slower.",
        ge=600.0, le=864000.0,
    )  # fmt: skip
    heater_w: Power = default(
        "0 W", PRACTICE, "Lithium: warms the bank when it would be charged but is too cold.",
        ge=0.0, le=5000.0,
    )  # fmt: skip
    stops_cold_charge: bool = default(
        False, PRACTICE, "Lithium: its own guard stops all charging with cells under 0 C; its sheet says so, and it was tried."
    )  # fmt: skip
    short_circuit_a: Current | None = left_out(
        "a high estimate from its kind and capacity", "ours", "What the bank gives into a dead short; its maker knows.",
        gt=100.0, le=500e3,
    )  # fmt: skip
    main_fuse_a: Current | None = left_out("not checked", PRACTICE, "The fuse at the battery's own terminals.", gt=1.0, le=5000.0)  # fmt: skip
    main_fuse_breaks_a: Current | None = left_out(
        "not checked", PRACTICE, "Its interrupting rating at direct current.", gt=10.0, le=500e3
    )  # fmt: skip
    main_leads: ConductorSize | None = left_out("not checked", PRACTICE, 'Copper leads between bank, main fuse and inverter, the thinnest of them, as "2/0 AWG" or "70 mm2".')  # fmt: skip
    main_terminals: Literal["60 C", "70 C", "75 C"] | None = left_out(
        "75 C under NEC and Canada, 70 C under IEC", "NEC 110.14(C) (from memory); CSA C22.1, rule 4-006 (from memory); IEC 60364-5-52, wires of 70 C (from memory)",
        "Marked where the main leads end: fuse holder, battery switch, inverter; the least of them.",
    )  # fmt: skip
    float_v_per_cell: float | None = left_out("asked of its maker", PRACTICE, "Lead-acid only.", ge=2.1, le=2.4)  # fmt: skip
    sensor: bool = default(False, PRACTICE, "A temperature sensor of the controllers sits on the bank; lead-acid only.")  # fmt: skip
    mass_kg: Mass | None = left_out(
        "from its energy, 100 Wh per kg",
        "from memory",
        "Of the bank in its box; how fast the heater warms it.",
        gt=1.0,
        le=20000.0,
    )

    def without_effect(self) -> frozenset[str]:
        """Keys that change nothing for this kind of bank."""
        lead_only = {"absorb_v_per_cell", "gives", "float_v_per_cell", "sensor"}
        idle = lead_only if self.kind == "lithium iron phosphate" else set()
        if self.kind != "flooded lead-acid":
            idle |= {"equalize_every_days", "equalize_v_per_cell", "never_equalized"}
        if self.never_equalized:
            idle |= {"equalize_every_days", "equalize_v_per_cell"}
        if self.kind != "lithium iron phosphate" or self.heater_w == 0.0:
            idle.add("mass_kg")
        if self.kind != "lithium iron phosphate":
            idle |= {"heater_w", "stops_cold_charge"}
        if self.temperature_c is not None and (
            self.kind != "lithium iron phosphate" or self.heater_w == 0.0
        ):
            idle.add("follows_air_s")
        return frozenset(idle)

    @property
    def in_series(self) -> int:
        """Cells in series: the file's count, else by the name of its voltage."""
        if self.cells is not None:
            return self.cells
        return cells_in_series(self.kind == "lithium iron phosphate", self.nominal_v)

    @property
    def warm_wh_k(self) -> float:
        """Heat that warms a lithium bank by one kelvin [Wh/K]."""
        mass_kg = self.mass_kg or self.nominal_v * self.capacity_ah / IRON_WH_PER_KG
        return mass_kg * IRON_HEAT_J_KG_K / 3600.0

    @property
    def equalized(self) -> bool:
        """Whether it may be equalized: flooded lead-acid, until the file says never."""
        return self.kind == "flooded lead-acid" and not self.never_equalized

    @property
    def may_take_a(self) -> float:
        """The largest charging current: the file's, else a fifth of the capacity an hour [A]."""
        return self.capacity_ah / 5.0 if self.charge_limit_a is None else self.charge_limit_a

    @property
    def table_rows(self) -> tuple[BatteryTableRow, ...]:
        """The maker's discharge table as read from its lines."""
        return tuple(battery_row(line) for line in self.gives)


class Inverter(Section):
    """From battery to house."""

    power_w: Power = Field(gt=0.0, le=100000.0)
    idle_w: Power = default(
        "25 W", PRACTICE, "Drawn day and night while it is on.", ge=0.0, le=500.0
    )
    efficiency: Share = default(
        "92 %", PRACTICE, "Battery to house at a usual load.", gt=0.5, le=1.0
    )
    efficiency_at_full_load: Share | None = left_out(
        "four points under `efficiency`",
        "from memory",
        "From the maker's curve; a heavy load loses more.",
        gt=0.5,
        le=1.0,
    )


class Controller(Section):
    """A charge controller; arrays name the one they are wired to."""

    name: str = Field(min_length=1)
    voltage_limit_v: Voltage = Field(
        gt=10.0, le=1500.0, description="Largest array voltage it may ever see."
    )
    current_limit_a: Current = Field(gt=0.0, le=500.0, description="Largest charging current.")
    set_current_a: Current | None = left_out(
        "its largest", PRACTICE, "Charging current it is set to, where that is less.", gt=0.0, le=500.0
    )  # fmt: skip
    efficiency: Share = default("97 %", PRACTICE, "Array to battery.", gt=0.5, le=1.0)
    array_current_limit_a: Current | None = left_out(
        "not checked", PRACTICE, "Largest short-circuit current of the arrays on it, from its sheet.", gt=0.0, le=1000.0
    )  # fmt: skip
    over_battery_v: Voltage = default(
        "5 V", PRACTICE, "Volts a string must stand over the battery before it charges; its sheet says.", ge=0.0, le=60.0
    )  # fmt: skip
    guards_earth_faults: bool = default(False, PRACTICE, "It has ground-fault protection in it.")
    guards_arcs: bool = default(False, PRACTICE, "It has arc-fault protection in it.")

    @property
    def passes_a(self) -> float:
        """What it passes on at most: its largest charging current, or what it is set to [A]."""
        if self.set_current_a is None:
            return self.current_limit_a
        return min(self.current_limit_a, self.set_current_a)


class Engine(Section):
    """The generator and its rule; leave the section out when there is none."""

    fuel: Literal["propane", "gasoline", "diesel"]
    power_w: Power = Field(gt=200.0, le=200000.0)
    charger_w: Power = Field(
        gt=50.0, le=100000.0, description="Into the battery, direct current side."
    )
    charger_gives_way: bool = default(
        False, PRACTICE, "It reads a meter of the battery's whole current, and pushes only what the sun leaves under battery.charge_limit."
    )  # fmt: skip
    call_at: Share = Field(gt=0.0, lt=1.0, description="Charge at which the engine is called.")
    let_go_at: Share = Field(gt=0.0, le=1.0, description="Charge at which it is let go.")
    heard_from_hour: float = default(
        0.0, PRACTICE, "It may be heard from this hour ...", ge=0.0, le=24.0
    )
    heard_to_hour: float = default(24.0, PRACTICE, "... to this one.", ge=0.0, le=24.0)
    shortest_run_s: Time = default(
        "1 h", PRACTICE, "Short runs wear an engine and never warm it.", ge=0.0, le=86400.0
    )
    full_load_fuel_l_h: FuelRate | None = left_out(
        "a range by kind of fuel",
        PRACTICE,
        "From the maker's sheet; with the half-load figure it replaces the range.",
        gt=0.0,
        le=100.0,
    )
    half_load_fuel_l_h: FuelRate | None = left_out(
        "a range by kind of fuel", PRACTICE, "From the maker's sheet.", gt=0.0, le=100.0
    )
    tank_l: Volume | None = Field(
        default=None, gt=0.0, le=50e3, description="Fuel on the place when full."
    )
    filled: Literal["when low", "once a year"] = default(
        "when low", PRACTICE, "Whether fuel can come at any time, or once before winter."
    )
    filled_in_month: int = default(
        10, PRACTICE, "Month in which it comes, where it comes once a year.", ge=1, le=12
    )
    airing_every_days: float | None = left_out(
        "never", PRACTICE, "Days it may stand before it is run for its own sake; makers often say a week.",
        ge=1.0, le=365.0,
    )  # fmt: skip
    airing_s: Time = default("15 min", PRACTICE, "Length of such a run.", gt=0.0, le=3600.0)
    starts_in_deep_cold: Share = default(
        "100 %", PRACTICE,
        "Chance that it starts at -20 °C; when it does not, it is tried again a day later. Write what you have lived through.",
        ge=0.0, le=1.0,
    )  # fmt: skip

    def without_effect(self) -> frozenset[str]:
        """Keys that change nothing without a tank or an airing."""
        idle = set()
        if self.tank_l is None:
            idle |= {"filled", "filled_in_month"}
        elif self.filled == "when low":
            idle.add("filled_in_month")
        if self.airing_every_days is None:
            idle.add("airing_s")
        return frozenset(idle)


class OldModule(Section):
    """What the label on the back of an old module says; enough to string it."""

    open_circuit_voltage_v: Voltage = Field(gt=5.0, le=200.0)
    working_voltage_v: Voltage = Field(gt=5.0, le=200.0)
    short_circuit_current_a: Current = Field(gt=0.5, le=40.0)
    working_current_a: Current = Field(gt=0.5, le=40.0)
    voltage_change_per_k: SharePerDegree | None = left_out(
        "the code's table", "NEC Table 690.7(A)", "Of the open-circuit voltage; old labels seldom say.", gt=-0.01, lt=0.0
    )  # fmt: skip


class OldArray(Section):
    """An array that is there already."""

    name: str = Field(min_length=1)
    power_w: Power = Field(gt=0.0, le=200000.0)
    tilt_deg: Angle = Field(ge=0.0, le=90.0)
    facing_deg: Angle = Field(ge=0.0, lt=360.0, description="From true north, clockwise.")
    controller: str
    still_gives: Share = default("90 %", PRACTICE, "Age, dirt and old wiring.", gt=0.1, le=1.0)
    age_years: float | None = left_out(
        "still_gives counts", PRACTICE, "Years in the sun; then published ageing counts in its place.",
        ge=0.0, le=60.0,
    )  # fmt: skip

    in_series: int | None = Field(default=None, ge=1, le=40, description="Modules in a string, with old_array.module.")  # fmt: skip
    in_parallel: int | None = Field(default=None, ge=1, le=40, description="Strings, with old_array.module.")  # fmt: skip
    module: OldModule | None = None

    def without_effect(self) -> frozenset[str]:
        """The share it still gives, where its age is written."""
        return frozenset({"still_gives"} if self.age_years is not None else ())


class LastWinter(Section):
    """What the owner knows of last winter; any of it may be left out."""

    engine_hours: float | None = Field(default=None, ge=0.0, le=8760.0)
    engine_hours_by_month: dict[MonthName, float] = Field(
        default_factory=dict,
        description="Engine hours of the months you know, as { dec = 40, jan = 55 }.",
    )
    fuel_l: Volume | None = Field(default=None, ge=0.0, le=100e3)
    fills: float | None = Field(
        default=None, ge=0.0, le=100.0, description="Tank fills in the year, with engine.tank."
    )
    dawn_charge: Share | None = Field(default=None, ge=0.0, le=1.0)
    waived: bool = Field(
        default=False,
        description="True: nothing is known of last winter and the figures are taken as they come.",
    )


class Household(Section):
    """The house that lives on its batteries."""

    uses: dict[str, UseSentence] = Field(
        description='A sentence each, as "900 W, 20 min after breakfast"'
    )
    battery: Battery
    inverter: Inverter
    controller: tuple[Controller, ...] = Field(min_length=1)
    engine: Engine | None = None
    old_array: tuple[OldArray, ...] = ()
    last_winter: LastWinter = LastWinter()
    use_factor: float | None = left_out(
        "fitted to last winter where its figures are given, else 1",
        "ours",
        "All uses times this: what the list forgets.",
        ge=0.2,
        le=5.0,
    )

    @property
    def use_list(self) -> tuple[Use, ...]:
        """The uses as read from their sentences."""
        return tuple(use_words(name, sentence) for name, sentence in self.uses.items())


class Module(Section):
    """One module of the new array, from its datasheet."""

    power_w: Power = Field(gt=20.0, le=1000.0)
    length_m: Length = Field(gt=0.3, le=3.0, description="The long side.")
    width_m: Length = Field(gt=0.3, le=2.0, description="The short side.")
    thickness_m: Length = Field(gt=0.005, le=0.1)
    mass_kg: Mass = Field(gt=1.0, le=60.0)
    open_circuit_voltage_v: Voltage = Field(gt=5.0, le=200.0)
    working_voltage_v: Voltage = Field(gt=5.0, le=200.0)
    short_circuit_current_a: Current = Field(gt=0.5, le=40.0)
    working_current_a: Current = Field(gt=0.5, le=40.0)
    voltage_change_per_k: SharePerDegree = Field(
        gt=-0.01, lt=0.0, description="Of the open-circuit voltage."
    )
    power_change_per_k: SharePerDegree = Field(gt=-0.01, lt=0.0)
    volts_low_by: Share = default("3 %", PRACTICE, "A module may have so many volts less than its sheet says.", ge=0.0, le=0.2)  # fmt: skip
    series_fuse_a: Current | None = left_out(
        "asked of the label", PRACTICE, "Largest series fuse, on the label on its back.", gt=1.0, le=100.0
    )  # fmt: skip
    system_voltage_v: Voltage = default("1000 V", PRACTICE, "Largest system voltage, on the same label.", ge=100.0, le=2000.0)  # fmt: skip
    tested_front_pa: Pressure = Field(
        gt=0.0, le=20000.0, description="Test load on the glass (snow)."
    )
    tested_back_pa: Pressure = Field(
        gt=0.0, le=20000.0, description="Test load on the back (wind)."
    )


class NewArray(Section):
    """The modules on the pole."""

    columns: int = Field(ge=1, le=20, description="Modules side by side along the hinge.")
    rows: int = Field(ge=1, le=10, description="Modules from low edge to top edge.")
    lie: Literal["portrait", "landscape"]
    gap_m: Length = default("3/4 in", PRACTICE, "Between neighbouring modules.", ge=0.0, le=0.2)
    slot_m: Length = default(
        "0 in",
        PRACTICE,
        "Wider gap over the strongback, between the two middle rows.",
        ge=0.0,
        le=0.6,
    )
    swept: bool = default(
        False, PRACTICE, "Whether snow is swept off the glass by nine in the morning."
    )
    dirt_by_month: tuple[Share, ...] = none_of(
        "98.5 %, rain-washed",
        PRACTICE,
        "Twelve shares of the light that dirty glass lets through, January first.",
    )
    in_series: int = Field(ge=1, le=40)
    in_parallel: int = Field(ge=1, le=40)
    controller: str
    charges_for_years: float = default(20.0, PRACTICE, "Years after which its strings must still charge in the heat.", ge=0.0, le=50.0)  # fmt: skip
    module: Module


class Mount(Section):
    """Pole, hinge and frame.  Lengths are measured square to or along the glass where they are not upright."""

    facing_deg: Angle = Field(
        ge=0.0, lt=360.0, description="Where the glass looks, from true north, clockwise."
    )
    hinge_height_m: Length = Field(gt=0.3, le=12.0, description="Hinge axis over the ground.")
    hinge_off_centre_m: Length = default(
        "0 in", PRACTICE, "Hinge from mid-chord, + towards the top edge.", ge=-2.0, le=2.0
    )
    glass_above_hinge_m: Length = Field(
        ge=0.0, le=1.5, description="From hinge axis to glass, square to the glass."
    )
    pole_top_below_hinge_m: Length = Field(ge=0.0, le=2.0)
    beam_clear_of_hinge_m: Length = default(
        "0 in",
        PRACTICE,
        "From the hinge axis to the back of the lowest rail, towards the glass; clears the pole's top.",
        ge=-0.5,
        le=1.0,
    )
    least_tilt_deg: Angle = Field(ge=0.0, lt=90.0)
    steepest_tilt_deg: Angle = Field(gt=0.0, le=90.0)
    winter_tilt_deg: Angle = Field(ge=0.0, le=90.0)
    summer_tilt_deg: Angle = Field(ge=0.0, le=90.0)
    own_moves: tuple[MoveSentence, ...] = none_of(
        "the winter and the summer tilt, changed at the end of March and in the second week of September",
        PRACTICE,
        'Your own dates and angles, in order, as "15 Mar 35 deg"; set beside the other ways of tipping.',
    )
    pole: Pole = Field(
        description='"8 in schedule 80 A53 B", "CHS 219.1x12.5 S355", or "measured 8-5/8 in outside, 0.32 in wall, unknown steel"'
    )
    strongback: Tube = Field(
        description="Square or rectangular tube along the hinge, as HSS 6x6x1/4 A500 C."
    )
    strongback_mass_kg: Mass | None = left_out(
        "from its size and the array's width", PRACTICE, "Weighed, if you can.", gt=0.0, le=2000.0
    )
    rails_mass_kg: Mass = Field(
        gt=0.0, le=2000.0, description="Rails, clamps and hinge together, without the strongback."
    )
    hinge_pin_m: Length = Field(gt=0.005, le=0.15, description="Diameter of the hinge pin.")
    hinge_pin_steel: Literal["A36", "A307", "A325", "1045", "8.8"] = default(
        "A36", PRACTICE, "The softest a yard sells."
    )
    hinge_span_m: Length = Field(gt=0.05, le=5.0, description="Between the two hinge bearings.")
    clear_below_m: Length = default(
        "2 ft", PRACTICE, "Wanted between lowest edge and ground.", ge=0.0, le=3.0
    )

    blocked_below: bool = default(
        False, PRACTICE, "More than half of the opening under the array may be blocked: a hedge, a woodpile, a snow heap."
    )  # fmt: skip

    @property
    def own_move_list(self) -> tuple[tuple[int, float], ...]:
        """Day of the year and tilt of each of the owner's own moves, in order of the day."""
        return tuple(sorted(move_words(line) for line in self.own_moves))


class PinBounds(Section):
    """Where the actuator's pins may go, two lengths each: the search keeps within them."""

    pin_along_m: tuple[Length, Length]
    pin_below_m: tuple[Length, Length]
    bracket_out_m: tuple[Length, Length]
    bracket_below_m: tuple[Length, Length]


class DriveSupply(Section):
    """The little separate system that drives the tilt: its panel, its battery, its wire."""

    nominal_v: Voltage = Field(gt=5.0, le=60.0, description="Of its battery: 12 V or 24 V.")
    battery_kind: Literal["sealed lead-acid", "flooded lead-acid", "lithium iron phosphate"]
    battery_ah: Charge = Field(gt=0.5, le=1000.0, description="Its capacity, at the 20 h rate.")
    panel_w: Power = Field(ge=0.0, le=2000.0, description="Its own panel; 0 W for none.")
    panel_tilt_deg: Angle = default("75 deg", PRACTICE, "Steep, so that snow slides off.", ge=0.0, le=90.0)  # fmt: skip
    panel_facing_deg: Angle | None = left_out("as the array", PRACTICE, "Where it looks, from true north, clockwise.", ge=0.0, lt=360.0)  # fmt: skip
    panel_kept: Share = default("80 %", PRACTICE, "What shade of array and pole, dirt and a plain controller leave of it.", gt=0.0, le=1.0)  # fmt: skip
    idle_w: Power = default("0.5 W", PRACTICE, "What its charge controller, receiver and lamps draw day and night.", ge=0.0, le=50.0)  # fmt: skip
    running_a: Current = Field(gt=0.1, le=200.0, description="Motor at its rated load.")
    stalled_a: Current | None = left_out(
        "three times the running current", "ours", "Motor held still: its inrush, and what the wire must bring.", gt=0.1, le=1000.0
    )  # fmt: skip
    moves_a_day: float = default(1.0, PRACTICE, "Full moves, there or back, on a day of many.", ge=0.0, le=48.0)  # fmt: skip
    wire_length_m: Length = Field(gt=0.1, le=300.0, description="One way, battery to motor.")
    wire_size: ConductorSize = Field(description='of its copper wire, as "10 AWG" or "6 mm2"')
    fuse_a: Current | None = left_out("the next standard size up", PRACTICE, "At its battery.", gt=0.5, le=400.0)  # fmt: skip


class Drive(Section):
    """The actuator that tips, and its pins (conventions §9)."""

    supply: DriveSupply | None = None

    retracted_length_m: Length = Field(gt=0.1, le=4.0, description="Pin to pin, rod in.")
    stroke_m: Length = Field(gt=0.05, le=3.0)
    moving_force_n: Force = Field(gt=50.0, le=500e3, description="Rating while moving.")
    holding_force_n: Force = Field(gt=50.0, le=2000e3, description="Rating while holding still.")
    speed_m_s: Speed | None = Field(default=None, gt=0.0, le=0.5)
    rod_diameter_m: Length = Field(gt=0.005, le=0.15, description="Rod diameter.")
    pin_along_m: Length = Field(
        gt=0.05, le=5.0, description="Frame pin from the hinge, along the chord to the top edge."
    )
    pin_below_m: Length = Field(
        ge=-1.0, le=2.0, description="Frame pin below the hinge line, square to the glass."
    )
    bracket_out_m: Length = Field(
        ge=-3.0, le=3.0, description="Pole bracket from the pole axis, away from the sun side."
    )
    bracket_below_m: Length = Field(gt=0.1, le=8.0, description="Pole bracket below the hinge.")
    bounds: PinBounds | None = None
    measured: tuple[RodSentence, ...] = none_of(
        "none: the rod's table is unproved",
        PRACTICE,
        'Rod that shows and the tilt by level at that moment, two pairs or more far apart, as "18-3/4 in at 35 deg".',
    )

    @property
    def measured_pairs(self) -> tuple[tuple[float, float], ...]:
        """Rod that shows [m] and tilt [deg] of each measured pair."""
        return tuple(rod_words(line) for line in self.measured)


class Lock(Section):
    """The storm hold, or a prop: a strut or plate with a pin through the strongback, or through an arm on it."""

    arm_m: Length = Field(gt=0.05, le=3.0, description="Least lever of the lock about the hinge.")
    pin_diameter_m: Length = Field(gt=0.004, le=0.1, description="Pin diameter, double shear.")
    pin_steel: Literal["A36", "A307", "A325", "1045", "8.8"]
    strut: Tube | None = Field(
        default=None, description="Square tube, as HSS 2.5x2.5x1/4 A500 C; none: a plate."
    )
    strut_length_m: Length | None = Field(default=None, gt=0.1, le=6.0)
    holes_deg: tuple[Angle, ...] = none_of(
        "not marked on the gauge", PRACTICE, 'Tilts at which its pin finds a hole, as ["5 deg", "15 deg"].'
    )  # fmt: skip
    play_m: Length = default(
        "1/16 in", PRACTICE, "How much the pin rattles in its holes, both ends together.", ge=0.0, le=0.02
    )  # fmt: skip


class Frame(Section):
    """Rails, clamps, ears, welds and bolts; what is left out is not summed, and said so."""

    rail: Tube | None = left_out("not summed", PRACTICE, "The rails across the strongback, as HSS 3x2x1/8 A500 C.")  # fmt: skip
    rails: int = default(2, PRACTICE, "Rails under each column of modules.", ge=1, le=6)
    rail_brace_m: Length | None = left_out(
        "none: the rail reaches free from the strongback",
        PRACTICE,
        "From the strongback to a knee brace under the rail, on either side of it.",
        gt=0.1,
        le=4.0,
    )
    clamps_per_module: int = default(4, PRACTICE, "Clamps that hold one module.", ge=2, le=12)
    clamp_holds_n: Force | None = left_out("not summed", PRACTICE, "Pull one clamp may hold, from its maker, safety in it.", gt=50.0, le=50e3)  # fmt: skip
    ear_thickness_m: Length | None = left_out("not summed", PRACTICE, "Thickness of one ear; two hold each pin.", gt=0.002, le=0.06)  # fmt: skip
    ear_edge_m: Length | None = left_out("twice the pin", PRACTICE, "From the middle of the hole to the nearest edge of the ear.", gt=0.005, le=0.3)  # fmt: skip
    ear_gap_m: Length = default("1/8 in", PRACTICE, "Between an ear and what turns in it, each side: it bends the pin.", ge=0.0, le=0.05)  # fmt: skip
    ear_height_m: Length | None = left_out("twice the edge", PRACTICE, "From the ear's weld to the middle of its hole.", gt=0.005, le=0.6)  # fmt: skip
    middle_thickness_m: Length | None = left_out("twice an ear", PRACTICE, "Of what turns between the two ears.", gt=0.002, le=0.3)  # fmt: skip
    ear_steel: Literal["A36", "S235", "S355"] = default("A36", PRACTICE, "The softest a yard sells.")  # fmt: skip
    weld_leg_m: Length | None = left_out("not summed", PRACTICE, "Leg of the fillet weld round each ear.", gt=0.002, le=0.03)  # fmt: skip
    weld_length_m: Length | None = left_out(
        "not summed", PRACTICE, "Length of the ear's foot; welded on both its sides.", gt=0.01, le=1.0
    )  # fmt: skip
    cap_bolts: int | None = left_out("not summed", PRACTICE, "Bolts that keep the cap or sleeve from turning on the pole.", ge=1, le=24)  # fmt: skip
    cap_bolt_m: Length | None = left_out("not summed", PRACTICE, "Their diameter.", gt=0.004, le=0.06)  # fmt: skip
    cap_bolt_steel: Literal["A307", "A325", "8.8"] = default("A307", PRACTICE, "The softest sold.")  # fmt: skip
    cap_weld_leg_m: Length | None = left_out("not summed", PRACTICE, "Leg of the fillet all round, where the cap is welded to the pole.", gt=0.002, le=0.03)  # fmt: skip
    split_sleeve_play_m: Length | None = left_out("no split sleeve", PRACTICE, "Play wanted between the pole and a split sleeve of the same nominal size.", ge=0.0, le=0.02)  # fmt: skip
    finish: Literal["galvanized", "painted", "bare"] | None = left_out("not told: the chart of metals shows both zinc and bare steel", PRACTICE, "What the rails, strongback and pole have on them.")  # fmt: skip


class Footing(Section):
    """The pier."""

    diameter_m: Length = Field(gt=0.2, le=3.0)
    depth_m: Length = Field(gt=0.5, le=6.0, description="Below the ground.")
    collar_m: Length = default(
        "4 in", PRACTICE, "Above the ground, sloped to drain.", ge=0.0, le=1.0
    )
    pole_depth_m: Length = Field(
        gt=0.3, le=6.0, description="How far the pole reaches into the pier below the ground."
    )
    neglected_m: Length = default("1.5 ft", PRACTICE, "Soft soil at the top that does not help.", ge=0.0, le=3.0)  # fmt: skip
    half_inch_allowed: bool = Field(
        description="Half an inch of motion at grade does no harm: doubles the soil value (IBC 1806.3.4)."
    )
    sleeve: Literal["none", "smooth tube and two plies"] = default(
        "none", PRACTICE, "Against frost that lifts; matters in silt and clay."
    )
    twist_bars: bool = Field(
        description="Bars through the pole foot that keep it from turning in the pier."
    )
    cage_bars: int | None = left_out("no cage: plain concrete", PRACTICE, "Upright bars of a cage from the top to the pier's foot.", ge=4, le=40)  # fmt: skip
    cage_bar_m: Length | None = left_out("1/2 in", PRACTICE, "Diameter of those bars.", gt=0.005, le=0.05)  # fmt: skip
    pole_filled: bool = default(True, PRACTICE, "Concrete is poured inside the pole as high as outside; an empty one takes less and must drain.")  # fmt: skip
    slab_at_ground: bool = default(
        False, PRACTICE, "A rigid slab round the pole that cannot move: the constrained sum (IBC 1807.3.2.2) then counts."
    )  # fmt: skip
    concrete_pa: Pressure = default(
        "3000 psi", "IBC 2012, Table 1808.8.1 (from memory)", "Strength at 28 days.", ge=1e7, le=6e7
    )


class CableRun(Section):
    """From the pole to the controller."""

    length_m: Length = Field(gt=0.5, le=3000.0, description="One way, with the rises at both ends.")
    size: ConductorSize = Field(
        description='a conductor size, as "4 AWG", "2/0 AWG", "250 kcmil" or "16 mm2"'
    )
    metal: Literal["copper", "aluminium"] = default(
        "copper", PRACTICE, "What direct-burial cable usually is."
    )
    method: Literal["direct burial", "PVC conduit", "metal conduit"]
    cover_m: Length = Field(ge=0.0, le=3.0, description="Soil over the cable.")
    breaker_a: Current | None = left_out(
        "the next standard size up",
        "NEC 240.6(A); CSA C22.1, Table 13 (from memory); IEC 60898-1, 60947-2 and 60269-1, rated currents (from memory)",
        "At the pole or the controller.",
        gt=0.0,
        le=1000.0,
    )
    breaker_bears_v: Voltage | None = left_out("asked for on the order", PRACTICE, "Direct-current voltage on the breaker's label.", gt=1.0, le=2000.0)  # fmt: skip
    breaker_breaks_a: Current | None = left_out("asked for on the order", PRACTICE, "Its interrupting rating at that voltage.", gt=10.0, le=500e3)  # fmt: skip
    earth_size: ConductorSize | None = left_out("the least lawful", "NEC Table 250.122; CSA C22.1, Table 16 (from memory); IEC 60364-5-54", "Copper earth wire that goes with the run.")  # fmt: skip
    insulation: Literal["90 C", "75 C", "70 C"] = default(
        "90 C", PRACTICE, "What the wire's insulation bears: USE-2, RHW-2, THWN-2 and XLPE 90, PVC 70 or 75."
    )  # fmt: skip
    terminals: Literal["60 C", "70 C", "75 C"] | None = left_out(
        "75 C under NEC and Canada, 70 C under IEC", "NEC 110.14(C) (from memory); CSA C22.1, rule 4-006 (from memory); IEC 60364-5-52, wires of 70 C (from memory)",
        "Marked on breaker, switch and controller; unmarked ones up to 100 A bear 60 C only.",
    )  # fmt: skip
    soil_c: Temperature | None = left_out(
        "the code's own: 30 C under NEC and Canada, 20 C under IEC", PRACTICE, "Warmest soil at the cable's depth.", ge=-5.0, le=50.0
    )  # fmt: skip
    soil_resistivity: float = default(2.5, "IEC 60364-5-52, table B.52.16 (from memory)", "How badly the soil carries heat off, K m/W; dry sand is worse, wet clay better. IEC only.", ge=0.3, le=5.0)  # fmt: skip
    conduit: str | None = left_out("the smallest that holds the wires", PRACTICE, 'Trade size of the pipe, as "1-1/4 in" or "50 mm".', max_length=12)  # fmt: skip
    conduit_wall: Literal["schedule 40", "schedule 80"] = default("schedule 40", PRACTICE, "Of PVC conduit; schedule 80 where it may be hit.")  # fmt: skip
    other_live_wires: int = default(0, PRACTICE, "Other live wires in the same pipe.", ge=0, le=40)
    bends_deg: tuple[Angle, ...] = none_of("two sweeps of 90 deg", PRACTICE, "Bends of the pipe between two places to pull from.")  # fmt: skip
    under: Literal["yard", "own drive", "public road", "slab"] = default("yard", PRACTICE, "What lies over the trench where the worst does.")  # fmt: skip
    cord_coldest_c: Temperature | None = left_out(
        "-40 C, as usual cords", "UL 62 (from memory); EN 50525-2-21 (from memory)", "Coldest the cord over the hinge may be bent at, from its sheet.", ge=-80.0, le=10.0
    )  # fmt: skip
    cord_loop_m: Length | None = left_out("as worked out", PRACTICE, "Cord between its two clamps, as cut.", gt=0.1, le=20.0)  # fmt: skip
    in_house_m: Length = default("3 m", PRACTICE, "How much of it lies on or in a building.", ge=0.0, le=200.0)  # fmt: skip

    def without_effect(self) -> frozenset[str]:
        """Direct burial has no pipe; metal conduit has no schedule."""
        pipe = {"conduit", "conduit_wall", "other_live_wires", "bends_deg"}
        if self.method == "direct burial":
            return frozenset(pipe)
        return frozenset() if self.method == "PVC conduit" else frozenset({"conduit_wall"})


class BuriedLine(Section):
    """A line of the owner's own in the ground; no utility marks it."""

    name: str = Field(min_length=1, max_length=60)
    what: Literal["water", "gas", "sewer", "power", "signal", "other"]
    depth_m: Length | None = Field(default=None, gt=0.0, le=5.0, description="To its top.")
    from_pole_m: Length | None = Field(default=None, ge=0.0, le=1000.0, description="Nearest to the pole, level.")  # fmt: skip
    crosses_run_at_m: Length | None = Field(
        default=None, ge=0.0, le=3000.0, description="Where the trench crosses it, from the pole along the run."
    )  # fmt: skip
    from_run_m: Length | None = Field(default=None, ge=0.0, le=1000.0, description="Nearest to the trench where they do not cross.")  # fmt: skip
    offsets: tuple[str, ...] = Field(
        default=(), description='Taped from things that stay, as "12 ft 3 in from the house\'s north-east corner".'
    )  # fmt: skip


class Shop(Section):
    """What the yard sells by the length, and the saw."""

    pole_lengths_m: tuple[Length, ...] = none_of("21 ft; 6 m and 12 m in a metric file", PRACTICE, "Lengths in which the yard sells pipe for the pole.")  # fmt: skip
    tube_lengths_m: tuple[Length, ...] = none_of("20 ft and 24 ft; 6 m and 7.5 m in a metric file", PRACTICE, "Lengths in which it sells tube.")  # fmt: skip
    rebar_lengths_m: tuple[Length, ...] = none_of("20 ft; 6 m in a metric file", PRACTICE, "Lengths in which it sells reinforcing bar.")  # fmt: skip
    round_lengths_m: tuple[Length, ...] = none_of("12 ft; 3 m in a metric file", PRACTICE, "Lengths in which it sells round bar for pins.")  # fmt: skip
    conduit_length_m: Length | None = left_out("10 ft; 3 m in a metric file", PRACTICE, "Length of a stick of conduit.", gt=0.5, le=100.0)  # fmt: skip
    kerf_m: Length | None = left_out("1/8 in; 3 mm in a metric file", PRACTICE, "What one cut of the saw takes.", ge=0.0, le=0.02)  # fmt: skip


class LedgerEntry(Section):
    """One line of the ledger, from plan over quote to what was paid, and whose hours went into it."""

    name: str = Field(min_length=1, max_length=60)
    part: Part | None = Field(default=None, description="What it belongs to; left out, it is guessed from the name.")  # fmt: skip
    planned: Money | None = Field(default=None, description="A grant with a minus.")
    quoted: Money | None = None
    paid: Money | None = None
    on: date | None = Field(
        default=None, description="a date without quotes, as 2026-05-01: of the figure that counts"
    )
    hours: float | None = Field(default=None, ge=0.0, le=1e5, description="Hours of work, not money.")  # fmt: skip
    by: str | None = Field(default=None, min_length=1, max_length=60, description="Whose hours.")
    rate: float | None = Field(
        default=None, ge=0.0, le=1e6, description="What one of these hours is worth; it stands beside, never in the sum."
    )  # fmt: skip
    note: str = Field(default="", max_length=300)


class Prices(Section):
    """What it costs, in the owner's own currency."""

    currency: str = Field(min_length=1, max_length=8)
    fuel_per_l: PricePerLitre = Field(
        default=0.0, ge=0.0, le=1e6, description="As 2.60 per gal or 1.45 per l; wanted where there is an engine."
    )  # fmt: skip
    engine_hour: float = default(
        0.0, PRACTICE, "Wear and oil of one engine hour, in money.", ge=0.0, le=1e6
    )
    concrete_per_m3: float | None = Field(default=None, ge=0.0, le=1e7)
    wire: dict[str, PricePerMetre] = Field(
        default_factory=dict,
        description='Two live wires and the earth wire, by live size and metal, as "4 AWG copper" = "3.10 per ft".',
    )
    stock: dict[str, PricePerMetre] = Field(
        default_factory=dict,
        description='Steel by the length, named as the file names it, as "HSS 4x2x1/8 A500 C" = "6.20 per ft".',
    )
    counted_years: float = default(
        15.0, PRACTICE, "Years over which saved fuel is set against the price of thicker wire.", gt=0.0, le=60.0
    )  # fmt: skip
    lines: dict[str, Money] = Field(
        default_factory=dict, description="What is paid or quoted, by name; a grant with a minus."
    )
    entry: tuple[LedgerEntry, ...] = ()
    ledger: str | None = Field(
        default=None, min_length=1, max_length=200, description='A CSV file beside this one, as "ledger.csv".'
    )  # fmt: skip
    ledger_columns: dict[LedgerColumn, str] = Field(
        default_factory=dict,
        description='What your own headings in that file mean, as { name = "Item", paid = "Cost" }.',
    )
    bought_mount: float | None = Field(
        default=None, ge=0.0, le=1e8, description="Quote for a bought mount, to set beside."
    )
    bought_lines: dict[str, Money] = Field(
        default_factory=dict,
        description="What buying costs beside the quote, by name: freight, a crane; a grant with a minus.",
    )
    bought_hours: float | None = Field(
        default=None, ge=0.0, le=1e5, description="Your own hours to fetch and set the bought mount."
    )  # fmt: skip
    bought_replaces: tuple[str, ...] = none_of(
        "guessed from the names of your lines", "ours", "Your own lines that a bought mount makes needless, by name."
    )  # fmt: skip
    discount: Share | None = left_out(
        "none: money saved later counts like money today",
        "ours",
        "What your money earns elsewhere in a year, or a loan costs, rising prices taken off.",
        ge=0.0,
        lt=0.5,
    )
    fuel_rise: Share = default(
        "0 %", "ours", "How much faster than other prices fuel rises in a year; nobody knows it.", gt=-0.2, lt=0.2
    )  # fmt: skip


class Mornings(Section):
    """How the morning line weighs the wind."""

    gust_chance: Share = default(
        "1 %", "ours", "Chance you bear that it blows harder than the tilt stands to, of one span between two moves.", ge=0.00001, le=0.05
    )  # fmt: skip
    thunder_months: tuple[int, ...] = none_of(
        "May to September; November to March south of the equator", PRACTICE, "Months in which thunder comes up unforeseen: away then, the ten-year gust is taken."
    )  # fmt: skip
    gone_to_hour: float | None = left_out(
        "an hour before sundown", PRACTICE, "Hour you are back at on a day you are gone till dark.", ge=0.0, le=24.0
    )  # fmt: skip
    anemometer_m: Length | None = left_out(
        "at 10 m in the open", PRACTICE, "Height of your own wind gauge; a low one reads low.", gt=0.5, le=60.0
    )  # fmt: skip


class Forecasts(Section):
    """Where a forecast may be fetched from; nothing is unless it is written here."""

    service: Literal["none", "MET Norway"] = default(
        "none", "ours", "An open weather service that may be asked for your place; it then learns where you live, to a kilometre."
    )  # fmt: skip
    contact: str | None = Field(
        default=None, min_length=5, max_length=120, description="Mail address the service may write to, as its terms ask."
    )  # fmt: skip
    asked_every_s: Time = default("1 h", "ours", "It is not asked more often than this.", ge=1800.0, le=86400.0)  # fmt: skip

    def without_effect(self) -> frozenset[str]:
        """Without a service nobody is asked."""
        return frozenset({"asked_every_s"} if self.service == "none" else ())


class Log(Section):
    """The daybook beside this file."""

    columns: dict[Meaning, ColumnSentence] = Field(
        default_factory=dict,
        description='Which column of a table of yours holds what, as { day = "column 1, day first", charge = "column 4, %" }.',
    )


class Homestead(Section):
    """The whole file.  No room takes it whole except `answer`; each takes its own section."""

    format: Literal[1]
    name: str = Field(min_length=1, max_length=60)
    units: Literal["feet", "metric"]
    we_are: Literal["thinking", "building", "living with it"]
    place: Place
    climate: Climate = Climate()
    view: View = View()
    household: Household
    array: NewArray
    mount: Mount
    drive: Drive | None = None
    lock: Lock | None = None
    prop: Lock | None = None
    frame: Frame = Frame()
    footing: Footing
    run: CableRun
    buried: tuple[BuriedLine, ...] = ()
    spot: tuple[Spot, ...] = ()
    shop: Shop = Shop()
    morning: Mornings = Mornings()
    forecast: Forecasts = Forecasts()
    prices: Prices
    daybook: Log = Log()
