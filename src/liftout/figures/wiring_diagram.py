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
from liftout.figures.drawing import WIDTH, Drawing, Key, drawing
from liftout.figures.lettering import LINE, SHIFT, wrapped
from liftout.figures.placing import Box, Point, around
from liftout.figures.show import show
from liftout.figures.svg import CHAIN, DASHED, FIRM, HEAVY, THIN, Canvas
from liftout.quantities import Quantity

Value = Fact[str] | Fact[Quantity] | Missing

SOURCE, BUS, PROTECTION, WIRE, SWITCH, CONNECTOR, LOAD = 13.0, 30.0, 50.0, 79.5, 98.0, 119.0, 152.0
"""Middles of the signs."""

COLUMN, BUS_ROOM, UNDER_PROTECTION, UNDER_SWITCH, IN_LOAD = 31.0, 19.0, 24.0, 34.0, 26.0
"""Room across for texts: over a sign, under the bus, under protection and switch, in the load."""

APART = 24.0
"""Least paper between the wires out and back."""

Words = list[tuple[str, bool]]
"""Lines of text, each with whether it is bold."""


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
        return self.run.load.name

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
            _row("wires in the bundle", run.bundle),
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
    shown = _Shown(circuit)
    canvas = Canvas(WIDTH, shown.height)
    shown.draw(canvas)
    told = Key(
        ("Part", "Value", "Rests on"),
        tuple((f"{part[0].upper()}{part[1:]}", value, ground) for part, value, ground in circuit.rows()),
        ("left", "left", "left"),
        f"What the diagram of circuit {run.name} shows",
    )
    words = " ".join(f"{part}: {value}{f' ({ground})' if ground else ''}." for part, value, ground in told.rows)
    title = f"Circuit {run.name}, from {run.source} to {circuit.load}."
    return drawing(canvas, f"wiring-{run.name}", title, f"One-line diagram. {title} {words}", key=told)


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


def _words(texts: Sequence[tuple[str, bool]], room: float) -> Words:
    return [(line, bold) for words, bold in texts for line in wrapped(words, room, bold=bold)]


class _Shown:
    """One circuit on paper: texts first, then as much room between the wires as they need."""

    def __init__(self, circuit: _Circuit) -> None:
        self.circuit = circuit
        run = circuit.run
        device, rating, label = circuit.protection
        self.kind = device.value if isinstance(device, Fact) else UNKNOWN
        named = (label or "no label told", f"{self.kind} {said(rating)}")
        if run.protection_declined:
            named = ("no protection", "reason in the table")
        material = run.place.part("conductor").word("material")
        self.above = {
            "source": _words([(run.source, True), (said(run.supply), False)], 22),
            "protection": _words([(named[0], True), (named[1], False)], 26),
            "wire": _words([(f"{run.name}: size {said(run.gauge)}", True), (f"{said(material)}, {said(run.length)} one way", False)], COLUMN - 2),
            "connector": _words([(circuit.connector, True)], COLUMN) if circuit.connector else [],
        }
        kind = circuit.switch.word("kind")
        self.switch = None if circuit.switch.declined is not None else kind.value if isinstance(kind, Fact) else UNKNOWN
        under = [self.switch or "", said(circuit.switch.quantity("rating")), circuit.off, circuit.cranking] if self.switch else []
        from_source = f"{said(run.place.part('protection').quantity('from_source'))} from the bus"
        self.under = {
            "bus": _words([(said(run.bus.name), True), (circuit.bus, False)], BUS_ROOM),
            "protection": [] if run.protection_declined else _words([(from_source, False)], UNDER_PROTECTION),
            "switch": _words([(words, False) for words in under], UNDER_SWITCH),
        }
        self.load = _words([(circuit.load, True), (said(run.current), False), (said(run.duty), False)], IN_LOAD)
        self.out = 8.0 + LINE * max(len(words) for words in self.above.values())
        deepest = max(9.5 + LINE * len(self.under["bus"]), 6.5 + LINE * len(self.under["protection"]), 9 + LINE * len(self.under["switch"]))
        self.back = self.out + max(APART, deepest + 2 + LINE, LINE * len(self.load) - 6)
        self.way_back = wrapped(self._way_back_words(), 66)
        self.height = self.back + 9 + LINE * max(1, len(self.way_back))

    def draw(self, canvas: Canvas) -> None:
        """Everything."""
        self._supply(canvas)
        self._protection(canvas)
        self._wire(canvas)
        self._load(canvas)
        self._way_back(canvas)

    @staticmethod
    def _write(canvas: Canvas, middle: float, first: float, words: Words) -> None:
        for number, (line, bold) in enumerate(words):
            canvas.text((middle, first + number * LINE), line, anchor="middle", bold=bold)

    def _over(self, canvas: Canvas, middle: float, name: str, height: float) -> None:
        """The texts of a sign, the last line `height` mm above the wire."""
        self._write(canvas, middle, self.out - height - (len(self.above[name]) - 1) * LINE, self.above[name])

    def _supply(self, canvas: Canvas) -> None:
        out, back, run = self.out, self.back, self.circuit.run
        centre = (SOURCE, (out + back) / 2)
        with canvas.group(run.source):
            canvas.line((SOURCE, out), (SOURCE, back), FIRM)
            canvas.circle(centre, 4.5, FIRM, "#fff")
            canvas.text((SOURCE, centre[1] + SHIFT), "G", anchor="middle", bold=True)
            self._over(canvas, SOURCE + 1, "source", 3)
        with canvas.group(f"bus {said(run.bus.name)}"):
            canvas.line((SOURCE, out), (BUS, out), FIRM)
            canvas.line((BUS, out - 5), (BUS, out + 5), HEAVY)
            self._write(canvas, BUS, out + 9.5, self.under["bus"])

    def _protection(self, canvas: Canvas) -> None:
        out = self.out
        left, right = PROTECTION - 5, PROTECTION + 5
        canvas.line((BUS, out), (left, out), FIRM)
        if self.circuit.run.protection_declined:
            canvas.line((left, out), (right, out), FIRM)
            self._over(canvas, PROTECTION, "protection", 3)
            return
        with canvas.group(f"protection {self.circuit.protection[2]}".strip()):
            if self.kind == "breaker":
                canvas.line((left, out), (right - 0.6, out - 4.2), FIRM)
                for sign in (1, -1):
                    canvas.line((right - 1, out - sign), (right + 1, out + sign), FIRM)
            elif self.kind == "fuse":
                canvas.rectangle(around((PROTECTION, out), 10, 3.6), FIRM)
                canvas.line((left, out), (right, out), FIRM)
            else:
                canvas.rectangle(around((PROTECTION, out), 10, 5), DASHED)
                canvas.text((PROTECTION, out + SHIFT), UNKNOWN, anchor="middle", bold=True)
            self._over(canvas, PROTECTION, "protection", 5.6)
        self._write(canvas, PROTECTION + 2.5, out + 6.5, self.under["protection"])

    def _wire(self, canvas: Canvas) -> None:
        run, connector, out, back = self.circuit.run, self.circuit.connector, self.out, self.back
        parts = (CONNECTOR - 3, CONNECTOR + 3) if connector else (CONNECTOR, CONNECTOR)
        wire = isinstance(run.return_path, Fact) and run.return_path.value == "wire"
        with canvas.group(f"wire of {run.name}"):
            if self.switch is None:
                canvas.line((PROTECTION + 5, out), (parts[0], out), FIRM)
            else:
                self._switch(canvas)
                canvas.line((PROTECTION + 5, out), (SWITCH - 4, out), FIRM)
                canvas.line((SWITCH + 4, out), (parts[0], out), FIRM)
            canvas.line((parts[1], out), (LOAD - 14, out), FIRM)
            self._over(canvas, WIRE, "wire", 5.6)
        if not connector:
            return
        with canvas.group(connector):
            for y in (out, back) if wire else (out,):
                canvas.arc((CONNECTOR - 1.4, y - 1.7), (CONNECTOR - 1.4, y + 1.7), 1.7, FIRM, clockwise=False)
                canvas.line((CONNECTOR - 3.1, y), (parts[0], y), FIRM)
                canvas.rectangle(Box(CONNECTOR - 1.2, y - 0.6, CONNECTOR + 1.6, y + 0.6), None, "#000")
                canvas.line((CONNECTOR + 1.6, y), (parts[1], y), FIRM)
            canvas.line((CONNECTOR - 0.6, out - 2.6), (CONNECTOR - 0.6, back + 2.6), CHAIN)
            self._over(canvas, CONNECTOR, "connector", 5.6)
            canvas.text((CONNECTOR - 0.6, back + 6.5), "parts here", anchor="middle")

    def _switch(self, canvas: Canvas) -> None:
        """Sign of the contact, with the coil that works it where it is a contactor's."""
        out = self.out
        canvas.line((SWITCH - 4, out), (SWITCH + 3.4, out - 4.2), FIRM)
        if self.switch == "contactor":
            canvas.line((SWITCH, out - 2), (SWITCH, out + 2), DASHED)
            canvas.rectangle(around((SWITCH, out + 3.2), 6, 2.4), FIRM)
        self._write(canvas, SWITCH, out + 9, self.under["switch"])

    def _load(self, canvas: Canvas) -> None:
        box = Box(LOAD - 14, self.out - 5, LOAD + 14, self.back + 5)
        run = self.circuit.run
        with canvas.group(self.circuit.load):
            canvas.rectangle(box, FIRM if run.load.removable else DASHED)
            self._write(canvas, LOAD, box.centre[1] + SHIFT - (len(self.load) - 1) / 2 * LINE, self.load)

    def _way_back_words(self) -> str:
        path = self.circuit.run.return_path
        if isinstance(path, Missing):
            return f"way back {UNKNOWN}"
        return "back through a wire" if path.value == "wire" else f"back through {path.value}, {said(self.circuit.run.return_resistance)}"

    def _way_back(self, canvas: Canvas) -> None:
        path, back = self.circuit.run.return_path, self.back
        with canvas.group("way back"):
            if isinstance(path, Fact) and path.value == "wire":
                parted = (CONNECTOR - 3, CONNECTOR + 3) if self.circuit.connector else (CONNECTOR, CONNECTOR)
                canvas.line((SOURCE, back), (parted[0], back), FIRM)
                canvas.line((parted[1], back), (LOAD - 14, back), FIRM)
            elif isinstance(path, Fact):
                for x, end in ((SOURCE, SOURCE), (LOAD - 22, LOAD - 14)):
                    canvas.line((x, back), (end, back), FIRM)
                    _frame(canvas, (x, back))
            else:
                canvas.line((SOURCE, back), (LOAD - 14, back), DASHED)
            canvas.lines((WIRE - 16, back + 5), self.way_back, anchor="middle")


def _frame(canvas: Canvas, at: Point) -> None:
    """Sign of a connection to the structure."""
    canvas.line(at, (at[0], at[1] + 2), FIRM)
    canvas.line((at[0] - 3, at[1] + 2), (at[0] + 3, at[1] + 2), FIRM)
    for x in (-3.0, 0.0, 3.0):
        canvas.line((at[0] + x, at[1] + 2), (at[0] + x - 1.5, at[1] + 4.2), THIN)


if __name__ == "__main__":
    show(wiring_diagrams, sys.argv[1:])
