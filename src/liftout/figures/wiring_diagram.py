"""One-line diagram of a circuit: source, bus, protection, wire, connector that parts, load, and the way back.

Signs after IEC 60617 (from memory); each also carries its name in words. What the job lacks is a question mark.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass

from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.facts.fact import CHOSEN, Fact, Missing, Place
from liftout.figures.amounts import UNKNOWN, needed, said
from liftout.figures.drawing import TALLEST, WIDTH, Drawing, drawing
from liftout.figures.legend import Column, Legend
from liftout.figures.lettering import shortened, wrapped
from liftout.figures.placing import Box, Point, around
from liftout.figures.show import show
from liftout.figures.svg import CHAIN, DASHED, FIRM, HEAVY, THIN, Canvas
from liftout.quantities import Quantity

Value = Fact[str] | Fact[Quantity] | Missing

OUT, BACK = 20.0, 44.0
"""Where the wires out and back run."""

SOURCE, BUS, PROTECTION, WIRE, SWITCH, CONNECTOR, LOAD = 13.0, 30.0, 50.0, 79.5, 99.0, 116.0, 152.0
"""Middles of the signs."""

COLUMN = 31.0
BUS_ROOM = 19.0
LINE = 3.6
TABLE = 53.0


@dataclass(frozen=True)
class _Circuit:
    """What the job says of a run, and what stands in the diagram for it."""

    run: Run
    facts: Facts

    @property
    def protection(self) -> tuple[Value, Value, str]:
        """Device, rating and label of the protection."""
        place = self.run.place.part("protection")
        return place.word("device"), place.quantity("rating"), place.said_at("label") or ""

    @property
    def connector(self) -> str:
        """The connector that parts when the item comes out; empty where the job names none."""
        return self.run.place.said_at("connector") or ""

    @property
    def load(self) -> str:
        """Name of the load."""
        return self.run.load.name if self.run.load else UNKNOWN

    @property
    def bus(self) -> str:
        """Whether the bus is dead with the master switch off."""
        dead = self.run.bus.dead
        return f"master off: {UNKNOWN}" if isinstance(dead, Missing) else "dead, master off" if dead.value else "LIVE, master off"

    @property
    def switch(self) -> Place:
        """What makes and breaks the current of the circuit."""
        return self.run.place.part("switched")

    @property
    def off(self) -> str:
        """What the OFF control of the equipment does to the circuit."""
        cuts = self.facts.wiring.part("off_switch").list_of("cuts")
        if isinstance(cuts, Missing):
            return f"OFF control: {UNKNOWN}"
        return "cut by the OFF control" if self.run.name in cuts.value else "NOT cut by the OFF control"

    @property
    def cranking(self) -> str:
        """What becomes of the circuit while the starter turns."""
        dead = self.run.place.answer("inhibited_while_cranking")
        if isinstance(dead, Missing):
            return f"while cranking: {UNKNOWN}"
        return "dead while cranking" if dead.value else "LIVE while cranking"

    def _controls(self) -> list[tuple[str, str, str]]:
        """OFF control and starter, with what each rests on."""
        off, dead = self.facts.wiring.part("off_switch"), self.run.place.answer("inhibited_while_cranking")
        guard, reach, cuts = off.answer("guarded"), off.answer("within_reach"), off.list_of("cuts")
        kind = off.word("kind")
        return [
            _row("OFF control", kind),
            _yes("OFF control is guarded", guard),
            _yes("OFF control within reach of the belted pilot", reach),
            ("OFF control and this circuit", self.off, needed(cuts) if isinstance(cuts, Missing) else "chosen in the job"),
            ("while the starter turns", self.cranking, needed(dead) if isinstance(dead, Missing) else dead.evidence),
        ]

    def _dead(self) -> tuple[str, str, str]:
        dead = self.run.bus.dead
        if isinstance(dead, Missing):
            return _row("bus with the master switch off", dead)
        return "bus with the master switch off", "dead" if dead.value else "stays live", dead.evidence

    def _switch(self) -> list[tuple[str, str, str]]:
        if self.switch.declined is not None:
            return [("switch or contactor", f"none: {self.switch.declined.value}", self.switch.declined.evidence)]
        return [_row("switch or contactor", self.switch.word("kind")), _row("rating of its contact", self.switch.quantity("rating"))]

    def rows(self) -> list[tuple[str, str, str]]:
        """Part, value, what it rests on."""
        run, place = self.run, self.run.place
        device, rating, label = self.protection
        conductor, protection = place.part("conductor"), place.part("protection")
        source = next((source for source in self.facts.sources if source.name == run.source), None)
        rows = [("source", run.source, ""), _row("nominal voltage", run.supply), _row("bus", run.bus.name), self._dead()]
        if source:
            rows.append(_row("rating of the source", source.rating))
        if run.protection_declined:
            rows.append(("protection", f"none: {run.protection_declined.value}", run.protection_declined.evidence))
        else:
            rows += [_row("protection", device), _row("rating of the protection", rating), ("label of the protection", label or "none told", "")]
            rows.append(_row("wire between bus and protection", protection.quantity("from_source")))
        rows += [
            _row("size of the conductor", run.gauge),
            _row("material of the conductor", conductor.word("material")),
            _row("plating of the conductor", conductor.word("plating")),
            *(
                (f"segment {piece.name}", said(piece.length), "" if isinstance(piece.length, Missing) else piece.length.evidence)
                for piece in run.segments
            ),
            _row("length one way", run.length),
            *self._switch(),
            *self._controls(),
            _row("rating of the insulation", run.insulation_rating),
            _row("wires in the bundle", place.quantity("bundle")),
            ("connector that parts", self.connector or "none told", ""),
            _row("contacts in the loop, out and back", run.terminations),
            _row("resistance of one contact", run.contact_resistance),
            ("load", self.load, ""),
            _row("current", run.current),
            _row("duty", run.duty),
            _row("way back", run.return_path),
        ]
        if isinstance(run.return_path, Fact) and run.return_path.value == "structure":
            rows.append(_row("resistance of the way back", run.return_resistance))
        return rows


def wiring_diagram(run: Run, facts: Facts) -> Drawing:
    """The diagram of one run."""
    circuit = _Circuit(run, facts)
    table = Legend((Column("Part", 48), Column("Value", 46), Column("Rests on", 72)), tuple(circuit.rows()))
    table = table.within(TALLEST - TABLE - 1)
    canvas = Canvas(WIDTH, TABLE + table.height + 1)
    _supply(canvas, circuit)
    _protection(canvas, circuit)
    _wire(canvas, circuit)
    _load(canvas, circuit)
    _way_back(canvas, circuit)
    table.draw(canvas, 1, TABLE)
    words = " ".join(f"{part[0].upper()}{part[1:]}: {value}{f' ({ground})' if ground else ''}." for part, value, ground in circuit.rows())
    title = f"Circuit {run.name}, from {run.source} to {circuit.load}."
    return drawing(canvas, f"wiring-{run.name}", title, f"One-line diagram. {title} {words}")


def wiring_diagrams(facts: Facts) -> list[Drawing]:
    """The diagrams of all runs."""
    return [wiring_diagram(run, facts) for run in facts.runs]


def _row(part: str, value: Value) -> tuple[str, str, str]:
    if isinstance(value, Missing):
        return part, UNKNOWN, needed(value)
    return part, said(value), "chosen in the job" if value.evidence == CHOSEN else value.evidence


def _yes(part: str, answer: Fact[bool] | Missing) -> tuple[str, str, str]:
    if isinstance(answer, Missing):
        return part, UNKNOWN, needed(answer)
    return part, "yes" if answer.value else "no", answer.evidence


def _above(canvas: Canvas, middle: float, lines: Sequence[str], height: float, *, room: float = COLUMN) -> None:
    """Short texts over a sign, the last one `height` mm above the wire; two lines each."""
    shown = [(part, n == 0) for n, words in enumerate(lines) for part in wrapped(words, room, 8, bold=n == 0, most=2)]
    for number, (words, bold) in enumerate(shown):
        canvas.text((middle, OUT - height - (len(shown) - 1 - number) * LINE), words, anchor="middle", bold=bold)


def _supply(canvas: Canvas, circuit: _Circuit) -> None:
    centre = (SOURCE, (OUT + BACK) / 2)
    with canvas.group(circuit.run.source):
        canvas.line((SOURCE, OUT), (SOURCE, BACK), FIRM)
        canvas.circle(centre, 4.5, FIRM, "#fff")
        canvas.text((SOURCE, centre[1] + 1.2), "G", 9, anchor="middle", bold=True)
        _above(canvas, SOURCE + 1, (circuit.run.source, said(circuit.run.supply)), 3, room=24)
    with canvas.group(f"bus {said(circuit.run.bus.name)}"):
        canvas.line((SOURCE, OUT), (BUS, OUT), FIRM)
        canvas.line((BUS, OUT - 6), (BUS, OUT + 6), HEAVY)
        words = (
            *((line, True) for line in wrapped(said(circuit.run.bus.name), BUS_ROOM, 8, bold=True, most=2)),
            *((line, False) for line in wrapped(circuit.bus, BUS_ROOM, 8, most=2)),
        )
        for number, (line, bold) in enumerate(words):
            canvas.text((BUS, OUT + 9.5 + number * LINE), line, anchor="middle", bold=bold)


def _protection(canvas: Canvas, circuit: _Circuit) -> None:
    device, rating, label = circuit.protection
    left, right = PROTECTION - 5, PROTECTION + 5
    canvas.line((BUS, OUT), (left, OUT), FIRM)
    if circuit.run.protection_declined:
        canvas.line((left, OUT), (right, OUT), FIRM)
        _above(canvas, PROTECTION, ("no protection", "reason in the table"), 3)
        return
    with canvas.group(f"protection {label}".strip()):
        kind = device.value if isinstance(device, Fact) else UNKNOWN
        if kind == "breaker":
            canvas.line((left, OUT), (right - 0.6, OUT - 4.2), FIRM)
            for sign in (1, -1):
                canvas.line((right - 1, OUT - sign), (right + 1, OUT + sign), FIRM)
        elif kind == "fuse":
            canvas.rectangle(around((PROTECTION, OUT), 10, 3.6), FIRM)
            canvas.line((left, OUT), (right, OUT), FIRM)
        else:
            canvas.rectangle(around((PROTECTION, OUT), 10, 5), DASHED)
            canvas.text((PROTECTION, OUT + 1), UNKNOWN, 9, anchor="middle", bold=True)
        _above(canvas, PROTECTION, (label or "no label told", f"{kind} {said(rating)}"), 5.6, room=27)
    words = f"{said(circuit.run.place.part('protection').quantity('from_source'))} from the bus"
    for number, line in enumerate(wrapped(words, COLUMN - 6, 8, most=2)):
        canvas.text((PROTECTION + 3, OUT + 6 + number * LINE), line, anchor="middle")


def _wire(canvas: Canvas, circuit: _Circuit) -> None:
    run = circuit.run
    parts = (CONNECTOR - 3, CONNECTOR + 3) if circuit.connector else (CONNECTOR, CONNECTOR)
    wire = isinstance(run.return_path, Fact) and run.return_path.value == "wire"
    with canvas.group(f"wire of {run.name}"):
        if circuit.switch.declined is not None:
            canvas.line((PROTECTION + 5, OUT), (parts[0], OUT), FIRM)
        else:
            _switch(canvas, circuit)
            canvas.line((PROTECTION + 5, OUT), (SWITCH - 4, OUT), FIRM)
            canvas.line((SWITCH + 4, OUT), (parts[0], OUT), FIRM)
        canvas.line((parts[1], OUT), (LOAD - 14, OUT), FIRM)
        material = run.place.part("conductor").word("material")
        _above(canvas, WIRE, (f"{run.name}: size {said(run.gauge)}", f"{said(material)}, {said(run.length)} one way"), 3)
    if not circuit.connector:
        return
    with canvas.group(circuit.connector):
        for y in (OUT, BACK) if wire else (OUT,):
            canvas.arc((CONNECTOR - 1.4, y - 1.7), (CONNECTOR - 1.4, y + 1.7), 1.7, FIRM, clockwise=False)
            canvas.line((CONNECTOR - 3.1, y), (parts[0], y), FIRM)
            canvas.rectangle(Box(CONNECTOR - 1.2, y - 0.6, CONNECTOR + 1.6, y + 0.6), None, "#000")
            canvas.line((CONNECTOR + 1.6, y), (parts[1], y), FIRM)
        canvas.line((CONNECTOR - 0.6, OUT - 2.6), (CONNECTOR - 0.6, BACK + 2.6), CHAIN)
        _above(canvas, CONNECTOR, (circuit.connector,), 3.8, room=28)
        canvas.text((CONNECTOR - 0.6, BACK + 6), "parts here", anchor="middle")


def _switch(canvas: Canvas, circuit: _Circuit) -> None:
    """Sign of the contact, with the coil that works it where it is a contactor's."""
    kind = circuit.switch.word("kind")
    told = kind.value if isinstance(kind, Fact) else UNKNOWN
    canvas.line((SWITCH - 4, OUT), (SWITCH + 3.4, OUT - 4.2), FIRM)
    if told == "contactor":
        canvas.line((SWITCH, OUT - 2), (SWITCH, OUT + 2), DASHED)
        canvas.rectangle(around((SWITCH, OUT + 3.2), 6, 2.4), FIRM)
    for number, line in enumerate((told, said(circuit.switch.quantity("rating")), circuit.off, circuit.cranking)):
        canvas.text((SWITCH, OUT + 8.4 + number * LINE), line, anchor="middle")


def _load(canvas: Canvas, circuit: _Circuit) -> None:
    box = Box(LOAD - 14, OUT - 5, LOAD + 14, BACK + 5)
    run = circuit.run
    with canvas.group(circuit.load):
        canvas.rectangle(box, FIRM if run.load is None or run.load.removable else DASHED)
        lines = [
            *((line, True) for line in wrapped(circuit.load, 26, 8, bold=True, most=3)),
            *((shortened(said(value), 26, 8), False) for value in (run.current, run.duty)),
        ]
        for number, (words, bold) in enumerate(lines):
            canvas.text((LOAD, box.centre[1] + 1 + (number - (len(lines) - 1) / 2) * LINE), words, anchor="middle", bold=bold)


def _way_back(canvas: Canvas, circuit: _Circuit) -> None:
    path = circuit.run.return_path
    with canvas.group("way back"):
        if isinstance(path, Fact) and path.value == "wire":
            parted = (CONNECTOR - 3, CONNECTOR + 3) if circuit.connector else (CONNECTOR, CONNECTOR)
            canvas.line((SOURCE, BACK), (parted[0], BACK), FIRM)
            canvas.line((parted[1], BACK), (LOAD - 14, BACK), FIRM)
            canvas.text((WIRE - 16, BACK - 1.2), "back through a wire", anchor="middle")
        elif isinstance(path, Fact):
            for x, end in ((SOURCE, SOURCE), (LOAD - 22, LOAD - 14)):
                canvas.line((x, BACK), (end, BACK), FIRM)
                _frame(canvas, (x, BACK))
            words = f"back through {path.value}, {said(circuit.run.return_resistance)}"
            canvas.text((WIRE - 16, BACK + 3), shortened(words, 80, 8), anchor="middle")
        else:
            canvas.line((SOURCE, BACK), (LOAD - 14, BACK), DASHED)
            canvas.text((WIRE - 16, BACK - 1.2), f"way back {UNKNOWN}", anchor="middle")


def _frame(canvas: Canvas, at: Point) -> None:
    """Sign of a connection to the structure."""
    canvas.line(at, (at[0], at[1] + 2), FIRM)
    canvas.line((at[0] - 3, at[1] + 2), (at[0] + 3, at[1] + 2), FIRM)
    for x in (-3.0, 0.0, 3.0):
        canvas.line((at[0] + x, at[1] + 2), (at[0] + x - 1.5, at[1] + 4.2), THIN)


if __name__ == "__main__":
    show(wiring_diagrams, sys.argv[1:])
