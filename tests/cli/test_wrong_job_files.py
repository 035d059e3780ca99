"""Job files with a slip that people make, read by the command: the message names the place, what is wrong and what would be right."""

from __future__ import annotations

import re
import shutil
from pathlib import Path
from typing import NamedTuple

import pytest

from liftout.cli.exits import Exit
from tests.cli.test_check import run
from tests.job.demonstration import FILE

TEXT = FILE.read_text(encoding="utf-8")


class Slip(NamedTuple):
    """A part of the demonstration job, what somebody wrote instead, and what the message says."""

    name: str
    written: str
    instead: str
    says: tuple[str, ...]


SLIPS = (
    Slip("no unit", "arm: 94.0 in", "arm: 94.0", ('"94.0" has no unit.', 'for example "118 in"')),
    Slip("comma in a decimal", "{value: 12.5 ft", "{value: '12,5 ft'", ("Write the decimal with a point.",)),
    Slip("comma between thousands", "weight: 2012.0 lb", 'weight: "2,012.0 lb"', ("Write thousands without a comma.",)),
    Slip("a mass for a length", "{value: 12.5 ft", "{value: 12.5 lb", ('"12.5 lb" measures mass.', "Write a length")),
    Slip("a unit misspelt", "{value: 12.5 ft", "{value: 12.5 fet", ('Did you mean "feet"?',)),
    Slip("an inch mark", "arm: 94.0 in", 'arm: 94.0"', ("Write the unit by its name: in, ft or lb.",)),
    Slip("feet and inches", "{value: 12.5 ft", "{value: 12 ft 6 in", ("12 ft 6 in are 12.5 ft or 150 in",)),
    Slip("about", "{value: 12.5 ft", '{value: "~12.5 ft"', ("Write the one value that was measured", '"tolerance"')),
    Slip("from to", "{value: 12.5 ft", "{value: 12-13 ft", ("Write the one value that was measured", '"tolerance"')),
    Slip("the letter O", "current: 8.5 A", "current: 8.O A", ('"8.O A" is not one number and one unit.', "a letter O or l among the digits")),
    Slip("a weight below nothing", "{value: 7.4 lb", "{value: -7.4 lb", ("cannot be nothing or less than nothing",)),
    Slip("a decimal point lost", "{value: 7.4 lb", "{value: 7400 lb", ("is more than the empty aircraft weighs, 2014.6 lb", "decimal point")),
    Slip("per cent forgotten", "after start: 93 %", "after start: 93", ("is more than the whole", 'for example "25 %"')),
    Slip("more than the whole", "after start: 93 %", "after start: 193 %", ("is more than the whole",)),
    Slip("a temperature for a difference", "{value: 5 Δ°C", "{value: 5 °C", ('for example "8 Δ°C"',)),
    Slip("degrees forgotten", "ambient: {value: 50 °C", "ambient: {value: 50 C", ('Did you mean "°C"?',)),
    Slip(
        "a moment for a torque",
        "torque: 35 lbf-in",
        "torque: 35 in-lb",
        ("measures moment", "The lb of a torque is a force", 'for example "50 lbf-in"'),
    ),
    Slip("a key misspelt", "insulation rating: 150", "insulaton rating: 150", ('Did you mean "insulation rating"?',)),
    Slip("a key in one word", "bus minimum: {", "bus_minimum: {", ('Did you mean "bus minimum"?',)),
    Slip("a part within another", "wiring:\n", "  wiring:\n", ("it is a part of the job itself", "Begin its line at the left margin.")),
    Slip("a tab", "  nominal: 28 V", "\tnominal: 28 V", ("Indent with spaces", "begins with a tab")),
    Slip("no colon", "  nominal: 28 V", "  nominal 28 V", ("the one above", "colons")),
    Slip("no space after a colon", "  nominal: 28 V", "  nominal:28 V", ("After a key stand a colon and a space.",)),
    Slip("a bracket left open", "passes: [seat frame pass]\n", "passes: [seat frame pass\n", ("quotes and brackets",)),
    Slip("a key twice", "  nominal: 28 V", "  nominal: 28 V\n  nominal: 14 V", ("stands twice here", "Keep one.")),
    Slip("a day before its month", "date: 2023-05-16", "date: 16.05.2023", ("Write year, month, day",)),
    Slip("a day that no month has", "date: 2023-05-16", "date: 2023-02-30", ('"2023-02-30" is not a date.',)),
    Slip("perhaps", 'guarded: "yes"', "guarded: perhaps", ('"perhaps" is not an answer.', "Write yes or no.")),
    Slip("another spelling", "material: copper", "material: coper", ('Did you mean "copper"?',)),
    Slip("a circuit misspelt", "cuts: [W1", "cuts: [W11", ('there is no circuit "W11".', 'Did you mean "W1"?')),
    Slip("evidence beside a chosen word", "material: copper", "material: {value: copper}", ("Write one word: copper", "said once for the part")),
    Slip(
        "none without a reason", "changes: {none: nothing else is changed on this aircraft at the same time}", "changes: none", ("without a reason",)
    ),
    Slip("an item that is not there", "load: cabin unit", "load: cabin unti", ('there is no item "cabin unti".', 'Did you mean "cabin unit"?')),
    Slip("a station that is not there", "{pilot: 180 lb, baggage: 15 lb}", "{pilto: 180 lb, baggage: 15 lb}", ('Did you mean "pilot"?',)),
    Slip("a datum that is not there", "underside: 14 in\n      datum: firewall", "underside: 14 in\n      datum: spinner", ('no datum "spinner"',)),
    Slip(
        "a part of the catalogue misspelt", "from: equipment/cabin_cooler", "from: equipment/cabin_coolr", ('Did you mean "equipment/cabin_cooler"?',)
    ),
    Slip("two grounds for one value", "{value: 12.5 ft, measured:", "{value: 12.5 ft, nameplate: tag, measured:", ("rests on more than one thing",)),
    Slip(
        "measured without a day",
        ", date: 2026-11-05, instrument: tape}}\n      allowance",
        ", instrument: tape}}\n      allowance",
        ("the day of the measurement",),
    ),
    Slip("two items of one number", 'item number: "2"', 'item number: "1"', ("is also the number of the cabin unit",)),
    Slip("another version", "liftout: 1\n", "liftout: 3\n", ('Write "liftout: 1".',)),
    Slip("a hyphen before a fraction", "{value: 12.5 ft", "{value: 12-1/2 ft", ("Write a space before the fraction: 12 1/2 in.",)),
    Slip("a fraction in one character", "arm: 94.0 in", "arm: 94½ in", ("Write the fraction with a slash: 12 1/2 in.",)),
    Slip("not known yet", "current: 8.5 A", "current: TBD", ("Leave it out while it is not known; then it is asked for.",)),
    Slip("does not apply", "current: 8.5 A", "current: N/A", ("Leave it out while it is not known",)),
    Slip("two values", "current: 8.5 A", "current: 8.5 A / 12 A", ('"8.5 A / 12 A" is not one number and one unit.', "Write one value.")),
    Slip("at most", "current: 8.5 A", "current: max 8.5 A", ("Write the number first and then its unit",)),
    Slip("more or less", "{value: 12.5 ft", "{value: 12.5 ft ± 0.5", ("Write the one value that was measured", '"tolerance"')),
    Slip("a remark without its space", "arm: 94.0 in", "arm: 94.0 in#tape", ("A remark begins with a space and #.",)),
    Slip("degrees by a letter", "ambient: {value: 50 °C", "ambient: {value: 50 oC", ('Did you mean "°C"?',)),
    Slip("newton metres in one word", "torque: 35 lbf-in", "torque: 4 Nm", ('Did you mean "N-m"?',)),
    Slip("a gallon of no country", "wing tanks: 46 US gal", "wing tanks: 46 gal", ('"US gal" or "imp gal"',)),
    Slip("a text with a colon", "customer: ", "customer: Ronsay: ", ("stands in quotes",)),
    Slip("a space that is none", "  nominal: 28 V", "\u00a0 nominal: 28 V", ("plain spaces",)),
    Slip("a list without brackets", "passes: [seat frame pass]", "passes: seat frame pass", ("for example [seat frame pass]",)),
    Slip(
        "an entry with the end of its file's name",
        "from: equipment/cabin_cooler",
        "from: equipment/cabin_cooler.yaml",
        ('Did you mean "equipment/cabin_cooler"?',),
    ),
    Slip(
        "a year ahead of the papers",
        "date: 2026-11-05, instrument: tape}}\n      allowance",
        "date: 2062-11-05, instrument: tape}}\n      allowance",
        ("more than a year after the date of the papers, 2026-11-20", "Look at the year"),
    ),
    Slip("nothing at the head", "liftout: 1\n", "", ('A job begins with "liftout: 1"',)),
)


@pytest.mark.parametrize("slip", SLIPS, ids=lambda slip: slip.name)
def test_the_message_names_the_place_and_the_cure(slip: Slip, tmp_path: Path) -> None:
    assert slip.written in TEXT
    jobs = tmp_path / "jobs"
    shutil.copytree(FILE.parents[1], jobs, ignore=lambda folder, names: [name for name in names if name.endswith("survey")])
    file = jobs / FILE.parent.name / FILE.name
    file.write_text(TEXT.replace(slip.written, slip.instead, 1), encoding="utf-8")
    code, out, err = run("check", file)
    assert code == Exit.UNREADABLE
    assert out == ""
    first = TEXT[: TEXT.index(slip.written)].count("\n") + 1
    last = first + slip.instead.count("\n") + 1
    assert any(first <= int(line) <= last for line in re.findall(r"job\.yaml:(\d+):", err)), err
    for words in slip.says:
        assert words in " ".join(err.split()), err


def test_they_are_fifty_and_no_two_alike() -> None:
    assert len({(slip.written, slip.instead) for slip in SLIPS}) == len(SLIPS) >= 50
