"""Placards of the electrical supply: least engine speed and longest time on the ground, shedding order, what waits, compass."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.chapters.matter import Matter
from liftout.documents.chapters.said import NOT_SAID, listed, said, worked_value
from liftout.documents.held_back import held_back
from liftout.documents.off_control import switches
from liftout.facts import Fact, Facts
from liftout.facts.electrical import SourceInPhase
from liftout.findings import Verdict
from liftout.tables import table
from liftout.worked import Worked
from liftout.worked.electrical.least_engine_speed import least_engine_speed
from liftout.worked.electrical.longest_hold import longest_hold

compass = table("compass_limits")

AT_OFF = "beside the OFF control of the equipment"


def power_placards(matter: Matter) -> Iterator[tuple[str, str, str]]:
    """Place, wording and reason of each."""
    facts = matter.facts
    named = switches(facts.runs)
    for change in held_back(matter):
        yield (AT_OFF, f"equipment not to be powered until the {change} is released".upper(), "the loads count on that change")
    for wording in dict.fromkeys(wording for case in facts.ground_holds for wording in _on_ground(case, named, facts)):
        yield (AT_OFF, wording, "the battery is not drawn down on the ground")
    if facts.shed and any(load.equipment for load in facts.shed):
        order = facts.electrical.list_of("shed")
        places = listed((f"{n} {name}" for n, name in enumerate(order.value, 1)), "") if isinstance(order, Fact) else ""
        wording = f"all generators lost, switch off in this order: {places}".upper() if places else said(order)
        yield ("in view of the pilot, beside the low-voltage warning", wording, "the battery lasts for what flight and landing need")
    for finding in matter.findings(["electrical.compass_deviation"]):
        if finding.verdict is Verdict.REFER and finding.referral is not None and finding.limit_text and finding.value_text:
            limit = compass.row("installed compass").deviation.quantity
            wording = f"{finding.subject} deviates more than {limit} with {named} on".upper()
            yield (f"beside the {finding.subject}", wording, "draft after 14 CFR 23.1547(e), for a person to decide")


def unserviceable(facts: Facts) -> Iterator[tuple[str, str, str]]:
    """Place, wording and reason of the placard that an item gets while it is aboard and cannot be used."""
    fed = dict.fromkeys(run.load.name for run in facts.runs)
    for item in fed:
        yield (f"{AT_OFF}, only while this holds", f"{item} unserviceable - do not switch on".upper(), "nobody powers what is faulty")
    for item in (one.name for one in facts.removable_items if one.name not in fed):
        yield (f"on the {item}, only while this holds", f"{item} unserviceable - do not use".upper(), "nobody uses what is faulty")


def _on_ground(case: SourceInPhase, named: str, facts: Facts) -> Iterator[str]:
    speed, hold = least_engine_speed(case, facts), longest_hold(case, facts)
    for sheet in (speed, hold):
        if sheet.sheet is None:
            yield _lacking(sheet)
    longest = f"no more than {worked_value(hold, 't_placard')} at {said(case.engine_speed)}" if hold.sheet and hold.sheet.has("t_placard") else ""
    if speed.sheet is not None:  # both stand on one placard: apart, either could be read as forbidding what the other allows
        yield f"on the ground with {named} on: engine at least {worked_value(speed, 'n_placard')}{', or ' if longest else ''}{longest}".upper()
    elif longest:
        yield f"on the ground with {named} on: {longest}".upper()


def _lacking(sheet: Worked) -> str:
    return f"{NOT_SAID}: {listed((need.what for need in sheet.missing), 'what the sheet needs')}"
