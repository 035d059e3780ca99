"""A sample document with every kind of block, made by hand: all of it invented."""

from __future__ import annotations

import datetime
from pathlib import Path

from liftout.documents import Attachment, Chapter, Document, Revision
from liftout.documents.blocks import Block, ChecklistRow, Figure, Signature
from liftout.documents.templating import chapters_environment, render
from liftout.expression import Node, Printed, parse
from liftout.findings import Decision, Finding, Given, Margin, Referral, Step, ToMeasure, Verdict
from liftout.quantities import of
from liftout.resources import folder

HOSTILE = '#panic("x") $x$ *b* <script>alert(1)</script> {{7*7}} | a `c` \\ [l](u) _u_ &amp; "q"'
"""What nobody should write in a job, and what must print as typed."""

DIGEST = "5e1f0c7a92b4d3886a1bb0c9f27e4d10ab93c6f2e8d7145b3c0a6f9e8d7c6b5a"
EFFECTIVITY = "Halden 4, serial H4-0217, registration ZZ-HAL: this serial number only"
STANDING = "INCOMPLETE - NOT FOR INSTALLATION, 3 open items"


def put_in(node: Node, values: dict[str, Printed]) -> Node:
    """The tree of a formula with printed values in the place of symbols."""
    from liftout.expression import Binary, Call, Negative, Power, Symbol

    match node:
        case Symbol(name):
            return values[name]
        case Binary(op, left, right):
            return Binary(op, put_in(left, values), put_in(right, values))
        case Negative(inner):
            return Negative(put_in(inner, values))
        case Power(base, exponent):
            return Power(put_in(base, values), exponent)
        case Call(name, arguments):
            return Call(name, tuple(put_in(argument, values) for argument in arguments))
        case _:
            return node


class Sheet:
    """Steps of a worksheet, written by hand."""

    def __init__(self) -> None:
        self.values: dict[str, Printed] = {}
        self.steps: list[Step] = []

    def given(self, symbol: str, number: str, unit: str, meaning: str, origin: str, evidence: str = "") -> None:
        printed = Printed(number, unit)
        self.values[symbol] = printed
        self.steps.append(Step(symbol, meaning, None, None, printed, origin, (Given(meaning, printed, origin, evidence),)))

    def work(self, symbol: str, formula: str, number: str, unit: str, meaning: str, by: str = "") -> None:
        tree = parse(formula)
        self.steps.append(Step(symbol, meaning, tree, put_in(tree, self.values), Printed(number, unit), by))
        self.values[symbol] = Printed(number, unit)


def voltage_drop() -> Finding:
    sheet = Sheet()
    sheet.given(
        "I", "8", "A", "steady current of the load", "job.yaml:88", "measured, A. Tait, 2025-02-11, clamp meter CM-3, calibration due 2025-09"
    )
    sheet.given("L", "3.2", "m", "length, one way", "job.yaml:90", "measured, A. Tait, 2025-02-11, tape")
    sheet.given("T", "70", "°C", "conductor at work", "job.yaml:91", "stated")
    sheet.given("n", "4", "", "contacts in the loop", "job.yaml:92", "counted")
    sheet.given("r", "9.5", "mΩ/m", "conductor, per length, at reference", "specimen table, gauge 14", "stored copy")
    sheet.given("alpha", "0.00393", "K⁻¹", "temperature coefficient of resistance", "specimen table, copper", "from memory")
    sheet.given("T_0", "20", "°C", "reference temperature", "specimen table, copper", "from memory")
    sheet.given("R_c", "1", "mΩ", "one contact", "specimen table, crimped ring", "common practice, no source")
    sheet.work("R", "r * L * (1 + alpha * (T - T_0))", "36.3736", "mΩ", "one conductor at work", by="specimen handbook, section 3")
    sheet.work("V_drop", "I * (2 * R + n * R_c)", "0.614", "V", "drop, out and back")
    return Finding(
        criterion="electrical.voltage_drop",
        subject="run W1",
        state="equipment in",
        verdict=Verdict.DOES_NOT_CONFORM,
        title="Voltage drop along a run",
        requires="the drop between bus and load stays within the limit for the bus voltage and the duty.",
        relation="at most",
        value=of("0.614", "V"),
        limit=of("0.5", "V"),
        value_text="0.614 V",
        limit_text="0.5 V",
        margin=Margin("ratio", of("-0.23", ""), "−23 %"),
        sources=("Specimen circular on wiring, edition 2, table 3", "Specimen handbook of conductors, page 47"),
        to_confirm=("specimen table, copper (from memory)", "specimen table, crimped ring (common practice, no source)"),
        evidence=(("job.yaml:95", "nameplate"),),
        remedy="use gauge 12 for run W1.",
        caution="A thicker conductor needs a terminal of its own size; a forced terminal breaks strands.",
        steps=tuple(sheet.steps),
    )


def long_sum(rows: int = 14) -> Finding:
    """Moments of many rows: a formula that must break over lines."""
    sheet = Sheet()
    for row in range(rows):
        sheet.given(f"m_{row}", f"{12.4 + row:.1f}", "lb", f"mass of item {row}", f"job.yaml:{100 + row}", "weighed")
        sheet.given(f"x_{row}", f"{118 + 3 * row}", "in", f"arm of item {row}", f"job.yaml:{130 + row}", "measured")
    sheet.work("M", " + ".join(f"m_{row} * x_{row}" for row in range(rows)), "39183.6", "lb·in", "moment of all items")
    sheet.work("x_cg", "M / (" + " + ".join(f"m_{row}" for row in range(rows)) + ")", "144.3", "in", "where they balance")
    return Finding(
        criterion="balance.centre_of_gravity",
        subject="aircraft",
        state="in and powered",
        verdict=Verdict.CONFORMS,
        title="Centre of gravity",
        requires="the centre of gravity stays within the envelope in each state.",
        relation="at most",
        value_text="144.3 in",
        limit_text="146 in",
        margin=Margin("distance", of("1.7", "in"), "1.7 in"),
        without_tolerance=False,
        sources=("Specimen type data sheet, revision 4",),
        steps=tuple(sheet.steps),
    )


def every_node() -> Finding:
    """One line of each construct of the language, none of it physics."""
    sheet = Sheet()
    for symbol, number, unit in (("a", "3", "m"), ("b", "−4.5", "m"), ("rho", "1.2", "kg/m³"), ("Delta_p", "250", "Pa"), ("theta", "0.3", "")):
        sheet.given(symbol, number, unit, f"specimen {symbol}", "job.yaml:12")
    sheet.steps.append(
        Step(
            "w",
            "masses",
            None,
            None,
            Printed("", "lb"),
            "",
            (Given("cooler", Printed("31.5", "lb"), "job.yaml:40", "weighed"), Given("rack", Printed("12", "lb"), "job.yaml:41", "nameplate")),
        )
    )
    sheet.values["w"] = Printed("31.5", "lb")
    sheet.work("v", "sqrt(2 * Delta_p / rho)", "20.41", "m/s", "a root over a fraction")
    sheet.work("q", "0.5 * rho * v**2 * (a + b)**2", "562", "kg·m/s²", "powers of a sum and of values with units")
    sheet.work("d", "-a - (-b) - (a - b)", "−15", "m", "signs")
    sheet.work("c", "a * cos(theta) + abs(b) * exp(theta) / max(a, b, 2)", "4.89", "m", "functions")
    tree = parse("sum(w * a) / sum(w)")
    sheet.steps.append(Step("x_bar", "a sum over rows", tree, None, Printed("3", "m"), ""))
    return Finding(
        criterion="structure.specimen",
        subject="nothing",
        state="",
        verdict=Verdict.REFER,
        title="Every construct of the language",
        requires="that each can be printed.",
        relation="at most",
        value_text="4.89 m",
        limit_text="5 m",
        referral=Referral(
            "Does the original say the same?", "specimen table, row 3", "a named person with the publication at hand", "the row, confirmed"
        ),
        decision=Decision(
            "Accepted for this serial number",
            "edge distance measured on the aircraft",
            "sketch 3",
            "R. Voe",
            "licence 0000",
            "2025-02-20",
            demonstration=True,
        ),
        steps=tuple(sheet.steps),
    )


def not_assessed() -> Finding:
    return Finding(
        criterion="fluids.flow",
        subject="loop A",
        state="filled",
        verdict=Verdict.NOT_ASSESSED,
        title="Coolant flow",
        requires="the pump drives the flow that the radiator needs.",
        missing=(ToMeasure("the head of the pump at no flow", "job.yaml:140, lines / loop A / pump"),),
    )


def not_applicable() -> Finding:
    return Finding(
        "passthrough.leak", "pressure bulkhead", "", Verdict.NOT_APPLICABLE, title="Leak through the bulkhead", reason="the cabin is not pressurised"
    )


def bearing(load: str = "1 250 N") -> Figure:
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="36mm" viewBox="0 0 300 120" font-size="10">'
        '<defs><marker id="tip" markerWidth="8" markerHeight="8" refX="6" refY="3" orient="auto"><path d="M0 0 L6 3 L0 6 z"/></marker></defs>'
        '<g fill="none" stroke="#000"><rect x="20" y="60" width="180" height="16"/><rect x="120" y="44" width="150" height="16"/>'
        '<line x1="160" y1="20" x2="160" y2="42" stroke-width="1.2" marker-end="url(#tip)"/></g>'
        f'<text x="168" y="28">{load}</text><text x="24" y="96">floor</text><text x="230" y="38">strap</text></svg>'
    )
    return Figure(
        "bearing", svg, "Where the strap bears on the floor (specimen, not to scale).", "A strap lies on the floor and carries a load from above."
    )


CHECKS = (
    ChecklistRow(
        "Connector of run W1 is locked",
        "tail unit, left side",
        "look and pull by hand",
        "locked, no play",
        reference="manual 2.1; specimen circular, table 3",
    ),
    ChecklistRow("Voltage at the load, equipment at full power", "connector W1-P2", "measure with a voltmeter", "13.5 V to 14.5 V", hold=True),
    ChecklistRow(
        "Elevator moves freely over its whole travel",
        "tail cone, with the unit in place",
        "operate",
        "no contact, no friction",
        hold=True,
        second_person=True,
    ),
    ChecklistRow("Blank is on the hose fitting", "bulkhead, station 118 in", "look", "cap tight, strap attached"),
)

SIGNED = (
    Signature("Prepared by", ("Name", "Licence", "Date", "Signature")),
    Signature(
        "Accepted by the licensed person",
        ("Name", "Licence or certificate number", "Date", "Signature"),
        "Nothing on this page was filled in by the tool.",
    ),
)


def blocks(template: str = "everything.md.j2", **values: object) -> tuple[Block, ...]:
    """The sample chapter."""
    from jinja2 import ChoiceLoader, FileSystemLoader

    environment = chapters_environment(folder("templates"))
    environment.loader = ChoiceLoader([FileSystemLoader(Path(__file__).parent / "templates"), FileSystemLoader(folder("templates"))])
    given: dict[str, object] = {
        "hostile": HOSTILE,
        "findings": [voltage_drop(), every_node(), long_sum(), not_assessed(), not_applicable()],
        "drawing": bearing(),
        "checks": CHECKS,
        "identity": [("Aircraft", "Halden 4"), ("Serial number", "H4-0217"), ("Said by the job", HOSTILE)],
        "runs": [["W1", "14", "3.2 m", "5 A breaker CB-12"], ["W2", "20", "0.85 m", HOSTILE]],
    }
    return render(environment, template, given | values)


def document(**changes: object) -> Document:
    """The sample document."""
    from dataclasses import replace

    sample = Document(
        key="manual",
        title="Installation manual",
        number="SFW-24-031-M",
        revision="B",
        date=datetime.date(2025, 3, 4),
        effectivity=EFFECTIVITY,
        digest=DIGEST,
        standing=STANDING,
        shop="Skerry Fitting Works",
        revisions=(
            Revision("A", datetime.date(2025, 1, 20), "First issue"),
            Revision("B", datetime.date(2025, 3, 4), "Run W1 is longer; the tail unit stands 40 mm further aft"),
        ),
        chapters=(
            Chapter("everything", "Every kind of block", blocks()),
            Chapter("short", "Placards", blocks("short.md.j2")),
        ),
        attachments=(Attachment("job.yaml", "application/yaml", "The resolved job", "source", b"liftout: 1\n"),),
        signatures=SIGNED,
        readers=("shop",),
        purpose="How the cabin cooler and its tail unit are fitted to this aircraft, tested, removed and fitted again.",
    )
    return replace(sample, **changes)  # type: ignore[arg-type]
