"""What the keys of files that liftout writes mean, with an example of each: put into their JSON Schemas."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

WORDS: Final[Mapping[str, tuple[str, object]]] = {
    "liftout": ("release that wrote the file", "0.8.2"),
    "schema": ("version of this schema", 1),
    "job": ("the job: its head, its number or file, or among digests its mark", "SFW-0412"),
    "number": ("number of the docket", "SFW-0412"),
    "revision": ("its revision", "A"),
    "language": ("version of the job language", "1"),
    "digests": ("marks of all that has a say in the findings, SHA-256 in hexadecimal", None),
    "tables": ("of the rows used", "0" * 64),
    "methods": ("of the methods of all criteria", "0" * 64),
    "engine": ("of libraries, fonts and templates", "0" * 64),
    "verdicts": ("how many findings have each verdict", None),
    "conforms": ("how many conform", 569),
    "does not conform": ("how many do not", 0),
    "refer": ("how many a licensed person must decide on; at a finding, the question", 15),
    "not assessed": ("how many lack a value", 0),
    "not applicable": ("how many the job declines, with a reason", 27),
    "findings": ("every criterion on every subject in every state, in the order of the criteria", None),
    "criterion": ("the criterion: family and name", "electrical.voltage_drop"),
    "title": ("the criterion in words", "Voltage drop of a circuit, out and back"),
    "subject": ("what it was applied to", "W1"),
    "state": ("in which state of the aircraft; empty where states do not matter", "in and filled"),
    "case": ("what tells this case from others", {"duty": "continuous"}),
    "verdict": ("one of five; none of them says that an aircraft may fly", "conforms"),
    "value": ("what was found; of a change, what is written", {"magnitude": 0.511, "unit": "V"}),
    "relation": ("how value and limit are compared", "at most"),
    "limit": ("what it was compared with", {"magnitude": 1, "unit": "V"}),
    "margin": ("what is left: a ratio of the limit, or a distance in a unit", None),
    "kind": ("ratio or distance; margins are ranked within one kind only", "ratio"),
    "magnitude": ("the number, to 12 significant digits", 0.489),
    "unit": ("its unit; empty for a bare number", "V"),
    "without_tolerance": ("whether it conforms only where tolerances are left out", False),
    "sources": ("the publications that it rests on: name, edition, place", ["AC 43.13-1B CHG 1 (2001), table 11-6, p. 11-21"]),
    "to_confirm": ("rows that nobody has compared with the original yet", ["hoses: -6"]),
    "evidence": ("what each value of the job rests on, by its place", {"job.yaml:231, wiring / runs / W1 / length": "measured by R. Voe"}),
    "data_basis": ("what the data of a limit is worth, where that is told", "acceptable methods, not approved data"),
    "inputs": ("mark of the inputs, on which a decision is made", "d7f5bddad444"),
    "decision": ("what a licensed person decided, beside the verdict; there, accepted or refused", "accepted"),
    "reason": ("why it does not apply, or how it was decided", "the fit has no liquid line"),
    "data": ("the data that the decision rests on", "book B-1, page 3"),
    "name": ("who decided", "E. Lind"),
    "licence": ("licence of whoever decided", "engineer 0118"),
    "date": ("year, month, day", "2026-11-22"),
    "demonstration": ("whether it is invented, in an invented job", False),
    "question": ("what is to be decided", "May the row be used?"),
    "facts": ("what to look at", "table hoses, row -6"),
    "who": ("who may decide", "the licensed person who answers for the fit"),
    "closes": ("what closes it", "the row compared with the original"),
    "missing": ("what is missing, and where to write it", None),
    "measure": ("what to measure or to look at", "measure the length of the wire"),
    "write": ("where to write it", "wiring / runs / W1 / length"),
    "remedy": ("a change that was seen to make it conform", "use gauge 8"),
    "caution": ("what may hurt somebody or something", "the wire is live while the master switch is on"),
    "sentence": ("the conclusion as it is printed", "0.5114 V against at most 1 V: conforms; margin 49 %."),
    "steps": ("the working, line by line", None),
    "symbol": ("the symbol that the line gives", "V_drop"),
    "meaning": ("what it is", "drop, out and back"),
    "formula": ("the formula in words; nothing on a given line", "I * (2 * R + n * R_c)"),
    "with_values": ("the same with the values put in", "8.5 A * (2 * 25 mohm + 6 * 1.2 mohm)"),
    "origin": ("where it comes from: a line of the job, a row of a table, another sheet", "job.yaml:231"),
    "rows": ("the values of a column, one by one", None),
    "label": ("what the row is of", "segment cabin"),
    "remedies": ("what was looked for with --remedies", None),
    "of": ("changes that help, by the key of the finding: criterion | subject | state", {"electrical.voltage_drop | W1": []}),
    "together": ("changes that go together, each assessed on top of those before it", []),
    "left": ("keys of the findings that fail still with those together", ["balance.weight_record | weighing report 118"]),
    "does": ("what to do, in the shop's words", "use gauge 8"),
    "changes": ("what is changed: of a remedy, keys of the job; of a docket, conclusions that come out otherwise", None),
    "path": ("the key that is changed, from the whole job inwards", ["wiring", "runs", "W1", "conductor", "gauge"]),
    "limits_operation": ("whether it takes something from what the aircraft may be used for", False),
    "then": ("what the finding says with it", "then 0.4345 V against at most 0.5 V; margin 13 %"),
    "worse": ("other findings that fail or wait for somebody with it", []),
    # a fleet
    "standings": ("how many jobs stand how", {"open": 3}),
    "jobs": ("every job, those that need most first; of a kit, the numbers whose kits are summed", None),
    "dockets": ("where dockets were written, or why not, with --issue", None),
    "margins": ("of each job and criterion what has least left, worst first", None),
    "standing": ("how the job stands, in words", "open"),
    "code": ("the code with which `liftout check` would end", 3),
    "aircraft": ("the aircraft: model and registration", "Halden 4 ZZ-HAL"),
    "serial": ("its serial number", "H4-1187"),
    "serial number": ("serial number of the aircraft", "H4-1187"),
    "open": ("how many findings somebody has to act on; of a line of a kit, what has no count or length", 3),
    "fault": ("why it could not be checked; empty where it was", "job.yaml:149:7 ..."),
    "finding": ("key of the finding: criterion | subject | state", "electrical.voltage_drop | W1"),
    "before": ("what the docket says", "conforms"),
    "now": ("what comes out now", "does not conform"),
    "folder": ("folder of the docket below that of the job", "issued/SFW-0412/A"),
    "why not": ("why none was written", "a docket is there with other contents"),
    "kind of margin": ("ratio, or the quantity that is left: margins are ranked within one kind only", "ratio"),
    "rank": ("place within its kind, 1 for the worst", 1),
    # a docket
    "places": ("where each value of the job inside was said", None),
    "tree": ("each value by its key: file, line, column", [0, 1, 1, {"papers": [0, 3, 1]}]),
    "files": ("the files by number, from 0", ["job.yaml", "airframes/halden_4.yaml"]),
    "annexes": ("the annexes, in their order", None),
    "annexes_file": ("the PDF that binds the annexes", {"file": "SFW-0412-annexes.pdf", "digest": "0" * 64}),
    "superseded": ("the revision whose place the docket takes", None),
    "marks": ("a mark of each part of each paper, by paper and chapter", {"manual": {"electrical": ["d7f5bddad444"]}}),
    "key": ("key of the finding: criterion | subject | state", "electrical.voltage_drop | W1"),
    "change": ("what of it is another", "verdict"),
    "was": ("what it was", "conforms"),
    "better": ("whether it came out better; nothing where that cannot be said", True),
    "moved": ("by how much its margin moved", 0.02),
    "comparison": ("what changed since, and which conclusions with it", None),
    "worked_anew": ("whether the superseded docket was worked anew by this release for the comparison", False),
    "file": ("name of its file", "SFW-0412-annexes.pdf"),
    "pages": ("its pages", 12),
    "digest": ("SHA-256 of the file, in hexadecimal", "0" * 64),
    "revisions": ("revisions so far, oldest first", None),
    # a kit
    "lines": ("what is in the box, or what to buy: lines of one thing are one line", None),
    "section": ("section of the list", "wires to cut"),
    "what": ("what it is", "wire, gauge 14, copper"),
    "part": ("part number or specification; empty where the job gives none", "SK-WS-2, tinned copper"),
    "pieces": ("how many pieces; nothing where the job gives no count", 2),
    "total": ("length or quantity of all; nothing of what is counted only", {"magnitude": 24.3333, "unit": "ft"}),
    "cuts": ("the pieces that it is cut into", [{"pieces": 2, "each": {"magnitude": 12.1667, "unit": "ft"}}]),
    "each": ("length or quantity of one piece", {"magnitude": 12.1667, "unit": "ft"}),
    "for": ("what each serves, by job", [{"job": "SFW-0412", "serves": "W1, out and back"}]),
    "serves": ("what it serves", "W1, out and back"),
}


DIGEST: Final = "^[0-9a-f]{64}$"
"""How the patterns of digests are written."""


def described(schema: dict[str, Any]) -> dict[str, Any]:
    """The schema with the meaning of every key, and with an example where it is a value of its own.

    Raises:
        KeyError: for a key that has no words.
    """
    told = dict(schema)
    if "properties" in schema:
        told["properties"] = {key: _with_words(key, described(inner)) for key, inner in schema["properties"].items()}
    for key in ("items", "additionalProperties"):
        if isinstance(schema.get(key), dict):
            told[key] = described(schema[key])
    return told


def _with_words(key: str, schema: dict[str, Any]) -> dict[str, Any]:
    meaning, example = WORDS[key]
    example = "0" * 64 if schema.get("pattern") == DIGEST else schema.get("const", example)
    return {"description": meaning, **({} if example is None or "properties" in schema else {"examples": [example]}), **schema}
