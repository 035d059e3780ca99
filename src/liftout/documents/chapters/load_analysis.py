"""Electrical load analysis: each source in each phase, with everything out and everything in; the sums stand on worked sheets."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import NOT_SAID, absence, known, listed, said, sentence, worked_value
from liftout.facts import Facts
from liftout.facts.electrical import PHASES, Source
from liftout.findings import Finding
from liftout.worked.electrical.load_analysis import SourceAtPhase, sources_at_phases
from liftout.worked.electrical.load_analysis import load_analysis as worked_load

IN, OUT = "runs", "off"


def load_analysis(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    cases = sources_at_phases(facts)
    return {
        "absent": absence(facts.electrical) or ("" if facts.sources else f"{NOT_SAID.capitalize()}: describe the sources."),
        "sources": [_source(source, [case for case in cases if case.source is source], facts) for source in facts.sources],
        "record": f"{matter.papers.number}-4",
        "results": [
            (finding.subject, f"{finding.relation} {finding.limit_text}" if finding.limit_text else "none computed", str(finding.verdict))
            for finding in _shares(matter)
        ],
    }


def _shares(matter: Matter) -> tuple[Finding, ...]:
    return matter.findings(["electrical.generator_load"])


def _source(source: Source, cases: list[SourceAtPhase], facts: Facts) -> Values:
    sheets = [(case, worked_load(case, facts)) for case in cases]
    phases = [case.phase for case in cases]
    fed = {run.load.name: run for run in facts.runs if run.source == source.name and run.load is not None}
    items = [run.load for run in fed.values() if run.load is not None]
    return {
        "name": sentence(source.name),
        "facts": [
            ("Rating", said(source.rating)),
            ("How overload is seen", said(source.monitoring)),
            ("Battery charging", said(facts.electrical.part("battery").quantity("recharge"))),
            ("Phases without any load named", listed((phase for phase in PHASES if phase not in phases), "none")),
        ],
        "columns": ["Load", "Which", "Current", *phases],
        "sides": ["left", "left", "right", *("left" for _ in phases)],
        "loads": [
            *((load.name, "before", said(load.current), *(IN if phase in load.phases else OUT for phase in phases)) for load in source.existing),
            *(
                (
                    item.name,
                    f"equipment, circuit {fed[item.name].name}",
                    f"steady {said(item.demand.steady)}, highest {said(item.demand.peak)}",
                    *((IN if phase in item.demand.phases.value else OUT) if known(item.demand.phases) else NOT_SAID for phase in phases),  # type: ignore[union-attr]
                )
                for item in items
            ),
        ],
        "sums": [
            (
                case.phase,
                *(worked_value(sheet, symbol) for symbol in ("I_out",)),
                worked_value(sheet, "I_eq") if case.equipment else "none",
                *(worked_value(sheet, symbol) for symbol in ("I_in", "C", "left_out", "left_in", "share_in")),
            )
            for case, sheet in sheets
        ],
    }
