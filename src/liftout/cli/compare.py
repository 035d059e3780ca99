"""`liftout compare`: what changed from one revision to another, and which conclusions with it."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from liftout.cli.as_json import print_json
from liftout.cli.terminal import styled

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

    from liftout.identity.compared import Comparison, Edition, FindingChange


def arguments(parser: ArgumentParser) -> None:
    """Tell what changed from OLD to NEW: facts of the job, verdicts, margins, decisions."""
    for name in ("old", "new"):
        parser.add_argument(name, metavar=name.upper(), type=Path, help="job file, folder of a docket, or PDF of one")
    parser.add_argument("--margins", action="store_true", help="print every margin that changed, not the one of each criterion that lost most")
    parser.add_argument("--json", action="store_true", help="print the comparison as JSON")


def compare(asked: Namespace) -> int:
    from liftout.cli.exits import Exit, giving_up
    from liftout.cli.telling import telling
    from liftout.identity.compared import compare as compared
    from liftout.records.carried import NotRead
    from liftout.records.editions import find

    with giving_up(), telling() as step:
        try:
            step(f"reading {asked.old.name}")
            old = find(asked.old).edition
            step(f"reading {asked.new.name}")
            new = find(asked.new).edition
        except NotRead as reason:
            print(reason, file=sys.stderr)
            return Exit.UNREADABLE
    found = compared(old, new)
    if asked.json:
        heads = {name: _head(one) for name, one in (("old", old), ("new", new))}
        print_json({**heads, **found.as_data()})
    else:
        _print(old, new, found, margins=asked.margins)
    return _code(old, new)


def _code(old: Edition, new: Edition) -> int:
    """Whether something fails, or is open, that did not and was not before."""
    from liftout.cli.exits import Exit

    failed, waited = ({one.key for one in old.conclusions if one.verdict == "does not conform"}, {one.key for one in old.conclusions if one.open})
    if any(one.verdict == "does not conform" and one.key not in failed for one in new.conclusions):
        return Exit.DOES_NOT_CONFORM
    return Exit.OPEN if any(one.open and one.key not in waited for one in new.conclusions) else Exit.CLEAR


def _head(one: Edition) -> dict[str, object]:
    return {
        "number": one.number,
        "revision": one.revision,
        "date": one.date,
        "serial number": one.serial,
        "liftout": one.liftout,
        "digests": one.digests,
        "conclusions": "as recorded" if one.recorded else "as assessed now",
    }


def _print(old: Edition, new: Edition, found: Comparison, *, margins: bool) -> None:
    for word, one in (("from", old), ("to", new)):
        how = f"conclusions as recorded by liftout {one.liftout}" if one.recorded else "conclusions as assessed now"
        print(f"{word:4}  {one.name}, {one.date}, job digest {one.digests.get('job', 'none')[:12]}; {how}")
    if old.serial != new.serial:
        print(styled(f"\nThese are for two aircraft: serial number {old.serial or 'not said'}, and {new.serial or 'not said'}.", "yellow"))
    print(styled(f"\nFacts: {len(found.facts)} said otherwise", "bold"))
    for fact in found.facts:
        print(f"  {fact.path}\n    was  {fact.was or 'not said'}\n    is   {fact.now or 'not said'}")
    differ = [name for name in found.digests if name in ("tables", "methods")]
    if differ:
        print(f"\nAlso other than before: {', '.join(differ)}. A conclusion may have changed for that reason, and not for a fact.")
    for title, changes in _groups(found):
        print(styled(f"\n{title}: {len(changes)}", "bold"))
        for change in changes:
            _print_change(change)
    _print_margins([change for change in found.findings if change.change == "margin"], every=margins)
    if not found.findings:
        print("\nNo conclusion came out otherwise.")
    if old.recorded or new.recorded:
        print("\nRecorded conclusions are taken as they stand; `liftout verify` tells whether they follow from the job in the paper.")


def _print_change(change: FindingChange, more: str = "") -> None:
    better = {True: "more is left, or less to do", False: "less is left, or more to do", None: ""}[change.better]
    print(f"  {change.key}{f'  ({better})' if better else ''}{more}")
    print(f"    was  {change.was or 'no such finding'}\n    is   {change.now or 'no such finding'}")


def _print_margins(changes: list[FindingChange], *, every: bool) -> None:
    if not changes:
        return
    less = sum(change.better is False for change in changes)
    print(styled(f"\nOther figures, same verdict: {len(changes)}, of which {less} with less left", "bold"))
    by_criterion: dict[str, list[FindingChange]] = {}
    for change in changes:
        by_criterion.setdefault(change.key.partition(" | ")[0], []).append(change)
    for of_one in by_criterion.values():
        shown = of_one if every else [min(of_one, key=lambda change: change.moved)]
        for change in shown:
            _print_change(change, f"  and {len(of_one) - 1} more" if not every and len(of_one) > 1 else "")
    if not every and len(by_criterion) < len(changes):
        print("  Of each criterion the one that lost most is shown; --margins prints all.")


def _groups(found: Comparison) -> list[tuple[str, list[FindingChange]]]:
    named = {
        "Verdicts that changed": ("verdict",),
        "Decisions made or lapsed": ("decision",),
        "Findings that are new or gone": ("new", "gone"),
    }
    groups = [(title, [change for change in found.findings if change.change in kinds]) for title, kinds in named.items()]
    return [(title, changes) for title, changes in groups if changes]
