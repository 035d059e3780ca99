"""The handbook's page "How large a load a system carries": tables of what `worked` computes over the grids named here.

What is limited is rounded down, what is needed is rounded up.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from typing import Final

from liftout.documents.blocks import Alert, Block, Bullets, Heading, Inlines, Paragraph, Strong, Table, Text
from liftout.quantities import from_si, plain, read, unit
from liftout.tables import table
from liftout.worked.electrical.carried_current import carried_current, in_free_air_a
from liftout.worked.electrical.remaining_load import remaining_load
from liftout.worked.fluids.carried_heat import carried_heat
from liftout.worked.fluids.drained_water import drained_water
from liftout.worked.fluids.moved_air import air_flow_m3_s, capture_speed_m_s, moved_air

TITLE: Final = "How large a load a system carries"

# The grids and the conditions of the page. They are nobody's published figures: a job states its own.
SYSTEMS: Final = ("14 V", "28 V")
GAUGES: Final = ("8", "6", "4", "2")
CABLES: Final = ("6 ft", "8 ft", "10 ft", "12 ft", "14 ft", "16 ft", "18 ft", "20 ft")
PERFORMANCES: Final = ("1.5", "2", "2.5", "3")
CONDUCTOR: Final = "70 °C"
WIRE: Final = "150 °C"
RATINGS: Final = {"105 °C": "rating_105", "150 °C": "rating_150", "200 °C": "rating_200"}
AMBIENT: Final = "50 °C"
ALTITUDE: Final = "20000 ft"
ALTERNATORS: Final = ("50 A", "60 A", "70 A", "85 A", "110 A", "130 A", "150 A")
DRAWN: Final = ("20 A", "30 A", "40 A", "50 A", "60 A", "75 A", "90 A")
SHARES: Final = ("neither placard nor monitoring", "monitored")
HEATS: Final = ("2 kW", "3 kW", "4 kW", "5 kW", "6 kW")
LIQUID: Final = "propylene glycol 50 % at 40 °C"
COOLED: Final = "8 Δ°C"
LINES: Final = "6 m"
PUMP: Final = "60 kPa"
BORES: Final = ("6 mm", "7 mm", "8 mm", "9 mm", "10 mm", "12 mm")
WARMED: Final = "15 Δ°C"
HOTTER: Final = "20 Δ°C"
DUCT: Final = "2 m"
DUCTS: Final = ("75 mm", "100 mm", "115 mm", "140 mm", "150 mm")
CLIMB: Final = "80 kt"
SCOOPS: Final = ("50 cm^2", "75 cm^2", "100 cm^2", "125 cm^2", "200 cm^2")
WATER: Final = "40 °F"
TUBE: Final = "60 cm"
DRAINS: Final = ("1.5 mm", "2 mm", "2.5 mm", "3 mm", "4 mm", "5 mm")
FALLS: Final = ("5 %", "20 %", "100 %")


def load_map() -> tuple[Block, ...]:
    """The blocks of the page."""
    return (*_said(), *_wires(), *_capacity(), *_sources(), *_lines(), *_ducts(), *_scoops(), *_drains())


def _said() -> Iterator[Block]:
    yield Paragraph(
        _text(
            "This map is computed from the published rows and the physics that the criteria use. "
            "It says what a system carries at most under the conditions named, before anything is bought or measured."
        )
    )
    yield Alert(
        "NOTE",
        (Paragraph(_text("A place inside the map proves nothing for an aircraft: the criteria of a job do, with its own measured values.")),),
    )
    yield Paragraph(
        _text(
            "Coefficient of performance is the heat removed over the electrical power that all parts of the cooler draw together. "
            "It falls with a hot radiator and a cold evaporator; state the least one of the day, not the best."
        )
    )
    yield Paragraph(_text("What a limit allows is rounded down, what is needed is rounded up, to the digits shown."))


def _wires() -> Iterator[Block]:
    limits = table("voltage_drop_limits")
    for system in SYSTEMS:
        limit = limits.row(f"{system} continuous")
        yield Heading(2, f"Wires on {system}", f"wires-{system.replace(' ', '-').lower()}")
        yield Paragraph(
            _text(
                f"A pair of equal wires, out and back, conductor at {CONDUCTOR}, no contacts: each contact takes its part of the {limit.drop.text}. "
                f"The load keeps its power at {limit.bus.text} less the whole drop. "
                f"The smaller of drop and rating for wire of {WIRE} counts for the duty; above it the wire fails."
            )
        )
        yield _table(
            f"Largest continuous current and cooling duty on {system}",
            (
                "gauge",
                "cable, one way",
                "by drop, A",
                "by rating, A",
                "what limits",
                *(f"duty at {performance}, BTU/h" for performance in PERFORMANCES),
            ),
            [_wire(system, gauge, cable) for gauge in GAUGES for cable in CABLES],
        )
        yield Paragraph(_text(f"Limit of the drop: {limit.citation}. Resistance and rating: {table('conductors').row(GAUGES[0]).citation}."))


def _wire(system: str, gauge: str, cable: str) -> list[str]:
    found = carried_current(system, gauge, _si(cable, "length"), _si(CONDUCTOR, "temperature"), RATINGS[WIRE])
    duties = [_number(_down(found.duty_w(float(performance)), "Btu/h", 3)) for performance in PERFORMANCES]
    return [gauge, cable, _number(_down(found.by_drop_a, "A", 3)), _number(_down(found.by_rating_a, "A", 3)), found.limited_by, *duties]


def _capacity() -> Iterator[Block]:
    basis, conductors, curves = table("methods").row("table 11-9 basis"), table("conductors"), table("free_air_ampacity")
    yield Heading(2, "Wires by rating", "wires-by-rating")
    yield Paragraph(
        _text(
            f"The ratings hold for their one case: {basis.T_a.text} ambient, {basis.H.text}, at most {basis.share.text} of the harness in use, "
            f"{conductors.row(GAUGES[0]).rating_wires.text} wires in it. A pair in full use lies outside that share: the criterion on the current of "
            "a conductor then asks for the curves. "
            f"Tin plating limits a conductor to {table('platings').row('tin').temperature.text}. "
            f"The last column is the free-air curve for a fully loaded pair of {WIRE} wires, {AMBIENT} ambient, {ALTITUDE}: "
            "it was not read in its source for these sizes. It flags a wire and passes none."
        )
    )
    rows = []
    for gauge in GAUGES:
        ratings = [str(conductors.row(gauge).cells[column]) for column in RATINGS.values()]
        curve = in_free_air_a(gauge, _si(WIRE, "temperature"), _si(AMBIENT, "temperature"), _si(ALTITUDE, "length"))
        rows.append([gauge, *ratings, _down(curve, "A", 3)])
    yield _table("Continuous current by rating", ("gauge", *(f"{wire} wire" for wire in RATINGS), "pair in free air, to flag"), rows)
    yield Paragraph(_text(f"Ratings: {conductors.row(GAUGES[0]).citation}. Curve: {curves.row(GAUGES[0]).citation}."))


def _sources() -> Iterator[Block]:
    limits = table("generator_load_limits")
    yield Heading(2, "Alternators", "alternators")
    yield Paragraph(
        _text(
            "What is left for everything else, battery charging among it, in the phase with the most loads and at the engine speed of that phase. "
            "Less than nothing is an overload: it stands as over by."
        )
    )
    for way in SHARES:
        row = limits.row(way)
        said = f"{row.share.text} of the rating, {way}"
        rows = [[rating, *(_left(remaining_load(_si(rating, "current"), _si(drawn, "current"), way)) for drawn in DRAWN)] for rating in ALTERNATORS]
        yield _table(f"Current left in A at {said}", ("alternator", *(f"{drawn} drawn" for drawn in DRAWN)), rows)
        yield Paragraph(_text(f"Share: {row.citation}."))


def _left(current_a: float) -> str:
    return _number(_down(current_a, "A", 3)) if current_a >= 0 else f"over by {_number(_up(-current_a, 'A', 3))}"


def _lines() -> Iterator[Block]:
    yield Heading(2, "Liquid lines", "liquid-lines")
    yield Paragraph(
        _text(
            f"Heat is what the radiator rejects: the cooling duty and the electrical power. The liquid is {LIQUID}, {COOLED.replace('Δ', '')} cooler back than out; "
            f"{LINES} of line in all, straight and smooth, bends and couplings not counted. Pressure and hydraulic power; the pump's motor takes more. "
            f"No publication limits the drop; over stands where a pump that gives {PUMP} cannot keep up the flow. "
            "Cold liquid takes several times as much: see the criterion on coolant flow."
        )
    )
    rows = []
    for bore in BORES:
        found = [
            carried_heat(_si(heat, "power"), _si(COOLED, "temperature difference"), LIQUID, _si(bore, "length"), _si(LINES, "length"))
            for heat in HEATS
        ]
        rows.append(
            [
                bore,
                *(f"{_over(_up(one.drop_pa, 'kPa', 2), one.drop_pa > _si(PUMP, 'pressure'))}, {_up(one.power_w, 'W', 2)}" for one in found),
            ]
        )
    yield _table("Pressure and hydraulic power of the lines", ("bore", *(f"{heat} rejected" for heat in HEATS)), rows)
    coolant = table("coolants").row(LIQUID)
    yield Paragraph(_text(f"Properties: {coolant.citation}. Friction: {table('methods').row('Colebrook').citation}."))


def _ducts() -> Iterator[Block]:
    yield Heading(2, "Ducts", "ducts")
    yield Paragraph(
        _text(
            f"Outside air at sea level, {HOTTER.replace('Δ', '')} warmer than standard, warms by {WARMED.replace('Δ', '')} while it takes the heat. "
            f"{DUCT} of flexible duct, sharp entry, free exit, nothing for the radiator. Speed in the duct, pressure that the duct takes, and the least "
            "true airspeed whose whole ram pressure is that. A scoop recovers less than the whole and the radiator takes its own share, so more is needed. "
            f"Over stands where more than a climb at {CLIMB} is asked."
        )
    )
    rows = []
    for bore in DUCTS:
        found = [
            moved_air(
                _si(heat, "power"),
                _si(WARMED, "temperature difference"),
                0.0,
                _si(HOTTER, "temperature difference"),
                _si(bore, "length"),
                _si(DUCT, "length"),
            )
            for heat in HEATS
        ]
        rows.append(
            [
                bore,
                *(
                    f"{_up(one.speed_m_s, 'm/s', 2)}, {_up(one.drop_pa, 'kPa', 2)}, "
                    f"{_over(_up(one.airspeed_m_s, 'kt', 2), one.airspeed_m_s > _si(CLIMB, 'speed'))}"
                    for one in found
                ),
            ]
        )
    yield _table("Air through a duct", ("bore", *(f"{heat} rejected" for heat in HEATS)), rows)
    yield Paragraph(_text(f"Roughness: {table('roughnesses').row('flexible duct fully extended').citation}."))


def _scoops() -> Iterator[Block]:
    yield Heading(2, "Scoops", "scoops")
    yield Paragraph(
        _text(
            "The same air through a scoop: the least true airspeed at which the area, square to the flight, meets the flow even if it swallows all the air ahead "
            f"of it. Below it the scoop fails, whatever the duct. Over stands where it is more than {CLIMB}. On the ground only a fan moves the air."
        )
    )
    rows = []
    for area in SCOOPS:
        speeds = [
            capture_speed_m_s(
                air_flow_m3_s(_si(heat, "power"), _si(WARMED, "temperature difference"), 0.0, _si(HOTTER, "temperature difference")),
                _si(area, "area"),
            )
            for heat in HEATS
        ]
        rows.append([str(read(area, "area")), *(_over(_up(speed, "kt", 2), speed > _si(CLIMB, "speed")) for speed in speeds)])
    yield _table("Least airspeed of a scoop", ("area", *(f"{heat} rejected" for heat in HEATS)), rows)


def _drains() -> Iterator[Block]:
    row = table("water").row(WATER)
    yield Heading(2, "Condensate drains", "condensate-drains")
    yield Paragraph(
        _text(
            f"Water at {WATER} out of {TUBE} of smooth tube that runs full by its own weight, by bore and by fall over length; "
            "the bore is inside, not the outside by which tube is named. A drain fails where the condensate of the hour is more."
        )
    )
    yield Bullets(
        (
            (Paragraph(_text("A narrow bore can hold a plug of water by surface tension and then runs not at all.")),),
            (Paragraph(_text("Air pressure at the outlet can hold the water up: which way it pushes is seen in flight only.")),),
            (Paragraph(_text("Water in the tube can freeze. A pour test on the ground is the least that shows a drain to run.")),),
        )
    )
    rows = [
        [bore, *(_down(drained_water(WATER, _si(bore, "length"), _si(TUBE, "length"), _si(fall, "number")).flow_m3_s, "L/h", 2) for fall in FALLS)]
        for bore in DRAINS
    ]
    yield _table("Largest condensate rate", ("bore", *(f"fall {fall}" for fall in FALLS)), rows)
    yield Paragraph(_text(f"Water: {row.citation} ({row.read})."))


def _si(text: str, dimension: str) -> float:
    return read(text, dimension).si_float


def _over(text: str, fails: bool) -> str:
    return f"over: {text}" if fails else text


def _number(text: str) -> str:
    """A quantity whose unit stands in the head of its column."""
    return text.partition(" ")[0]


def _up(si: float, symbol: str, digits: int) -> str:
    return _rounded(si, symbol, digits, ROUND_CEILING)


def _down(si: float, symbol: str, digits: int) -> str:
    return _rounded(si, symbol, digits, ROUND_FLOOR)


def _rounded(si: float, symbol: str, digits: int, way: str) -> str:
    # Ten digits first: a figure that a float holds a hair above 76 A is not rounded up to 76.1 A.
    magnitude = Decimal(f"{from_si(si, symbol).magnitude:.10g}")
    kept = magnitude.quantize(Decimal(1).scaleb(magnitude.adjusted() - digits + 1), rounding=way) if magnitude else Decimal(0)
    return f"{plain(kept)} {unit(symbol).symbol}"


def _text(text: str) -> Inlines:
    return (Text(text),)


def _table(caption: str, head: Sequence[str], rows: Sequence[Sequence[str]]) -> Table:
    body = tuple(((Strong(_text(row[0])),), *(_text(cell) for cell in row[1:])) for row in rows)
    return Table(tuple(map(_text, head)), body, tuple("left" for _ in head), caption)
