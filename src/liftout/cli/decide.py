"""`liftout decide`: a licensed person's decision on referred findings, written beside the computed verdict."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from liftout.cli.as_json import print_json
from liftout.cli.terminal import styled

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Iterable, Sequence

    from liftout.assessment import Assessment
    from liftout.findings import Finding
    from liftout.job import Decision
    from liftout.records.decided import ChangedInput

ASKED = {
    "decision": "accepted, or refused",
    "reason": "why",
    "data": "the data that it rests on: number, revision, page",
    "name": "who decides",
    "licence": "kind and number of the licence or authorisation",
    "date": "when, as 2026-11-20",
}
"""What a decision says, in the order in which it is asked for."""


def arguments(parser: ArgumentParser) -> None:
    """List the referred findings of JOB, or write down a licensed person's decision on some of them."""
    parser.add_argument("job", metavar="JOB", type=Path, help="job file; decisions are kept in decisions.yaml beside it")
    parser.add_argument("marks", metavar="MARK", nargs="*", help="mark of the inputs of a referred finding, as printed beside it")
    parser.add_argument("--decision", choices=("accepted", "refused"), help="accepted closes the finding, refused leaves it open")
    for name, meaning in ASKED.items():
        if name != "decision":
            parser.add_argument(f"--{name}", metavar=name.upper(), help=meaning)
    parser.add_argument("--read", action="store_true", help="read decisions as JSON from standard input: a list of objects with mark and these keys")
    parser.add_argument("--renew", action="store_true", help="decide anew where an earlier decision has lapsed; what changed is shown")
    parser.add_argument("--again", action="store_true", help="decide anew where a decision stands; the earlier one stays in the file above it")
    parser.add_argument("--json", action="store_true", help="print what is open, or what was written, as JSON")


def decide(asked: Namespace) -> int:
    from liftout.assessment import assess
    from liftout.cli.exits import Exit, giving_up
    from liftout.cli.telling import telling
    from liftout.job import load

    with giving_up():
        with telling() as step:
            step("reading and assessing")
            assessment = assess(load(asked.job), remedies=False)
        told = {name: getattr(asked, name) for name in ASKED if getattr(asked, name) is not None}
        by_person = not (asked.read or asked.json) and sys.stdin.isatty() and sys.stdout.isatty()
        if asked.read:
            said = _piped(assessment, asked, told)
        elif asked.marks:
            said = [(_found(assessment, mark), told) for mark in dict.fromkeys(asked.marks)]
        elif by_person and _waiting(assessment):
            said = [(finding, told) for finding in _chosen(assessment)]
        else:
            if told:
                _refuse("these words belong to a finding: name it by its MARK.")
            return _list(assessment, as_json=asked.json)
        stands = [finding for finding, words in said if not (by_person or asked.again) and _says(finding, words)]
        said = [one for one in said if one[0] not in stands]
        _allowed([finding for finding, _ in said], assessment, asked, by_person=by_person)
        if by_person:
            told = _prompted(told)
            said = [(finding, told) for finding, _ in said]
        made = _made(assessment, said)
        if by_person:
            _confirm(made)
        if made:
            _write(assessment, made)
    if asked.json:
        print_json({"written": str(asked.job.with_name("decisions.yaml")), "decisions": [decision.as_data() for decision in made]})
    else:
        _print_written(asked.job, made)
        for finding in stands:
            print(f"{finding.key}: this very decision stands there already; it was left as it is.")
    return Exit.CLEAR


# --- what waits -------------------------------------------------------------------------------------------------


def _referred(assessment: Assessment) -> list[Finding]:
    return [finding for finding in assessment.findings if finding.inputs]


def _waiting(assessment: Assessment) -> list[Finding]:
    return [finding for finding in _referred(assessment) if finding.open]


def _lapsed(assessment: Assessment) -> dict[str, Decision]:
    return {lapsed.decision.key: lapsed.decision for lapsed in assessment.lapsed}


def _list(assessment: Assessment, *, as_json: bool) -> int:
    from liftout.cli.exits import Exit

    waiting, lapsed = _waiting(assessment), _lapsed(assessment)
    if as_json:
        papers = assessment.job.document.papers
        print_json(
            {
                "job": {"number": papers.number, "revision": papers.revision},
                "open": [_finding_data(finding, lapsed.get(finding.key)) for finding in waiting],
                "standing": [
                    {"mark": finding.inputs, "finding": finding.key, **finding.decision._asdict()}
                    for finding in _referred(assessment)
                    if finding.decision is not None
                ],
            }
        )
    else:
        _print_waiting(assessment, waiting, lapsed)
    return Exit.OPEN if waiting else Exit.CLEAR


def _print_waiting(assessment: Assessment, waiting: Sequence[Finding], lapsed: dict[str, Decision]) -> None:
    papers = assessment.job.document.papers
    print(f"{papers.number} revision {papers.revision}: {len(waiting)} referred findings wait for a decision.")
    for number, finding in enumerate(waiting, 1):
        _print_finding(number, finding, lapsed.get(finding.key))
    if waiting:
        print("\nA decision stands beside the verdict and never replaces it. Only the person named may make it; keep the signed original.")


def _print_finding(number: int, finding: Finding, lapsed: Decision | None) -> None:
    assert finding.referral is not None
    subject = ", ".join(part for part in (finding.subject, finding.state) if part)
    print(styled(f"\n{number:3}  {finding.title}: {subject}  ({finding.criterion})", "bold"))
    lines = [
        f"mark {finding.inputs}",
        *([f"computed: {finding.brief}"] if finding.value_text else []),
        finding.referral.question,
        f"Look at: {finding.referral.facts}",
        f"May decide: {finding.referral.who}. Closed by: {finding.referral.closes}.",
        *(
            [f"{finding.decision.decision} by {finding.decision.name}, {finding.decision.date}: {finding.decision.reason}"]
            if finding.decision
            else []
        ),
    ]
    for line in lines:
        print(f"     {line}")
    if lapsed is not None:
        print(styled(f"     lapsed: {lapsed.decision} by {lapsed.name}, {lapsed.date}: {lapsed.reason}", "yellow"))
        _print_changed(lapsed, finding)


def _print_changed(lapsed: Decision, finding: Finding) -> None:
    from liftout.records.decided import changed_inputs

    if not lapsed.seen:
        print(
            f"       What it was made on is not written with it. Its mark was {lapsed.inputs}, and is now {finding.inputs}: look at everything anew."
        )
    for change in changed_inputs(lapsed, finding):
        print(f"       {_sentence(change)}")


def _sentence(change: ChangedInput) -> str:
    if not change.was:
        return f"new: {change.what}: {change.now}"
    if not change.now:
        return f"no longer used: {change.what}: {change.was}"
    return f"changed: {change.what}: was {change.was}; is {change.now}"


def _finding_data(finding: Finding, lapsed: Decision | None) -> dict[str, Any]:
    from liftout.records.decided import changed_inputs, seen

    assert finding.referral is not None
    return {
        "mark": finding.inputs,
        "criterion": finding.criterion,
        "subject": finding.subject,
        "state": finding.state,
        "sentence": finding.sentence,
        "refer": finding.referral._asdict(),
        "seen": seen(finding),
        "decision": None if finding.decision is None else finding.decision._asdict(),
        "lapsed": None if lapsed is None else {**lapsed.as_data(), "changed": [change._asdict() for change in changed_inputs(lapsed, finding)]},
    }


# --- what is decided --------------------------------------------------------------------------------------------


def _refuse(*lines: str) -> NoReturn:
    from liftout.cli.exits import Exit

    print(*lines, "Nothing was written.", sep="\n", file=sys.stderr)
    raise SystemExit(Exit.MISTYPED)


def _found(assessment: Assessment, mark: str) -> Finding:
    found = next((finding for finding in _referred(assessment) if finding.inputs == mark), None)
    if found is None:
        lapsed = next((decision for decision in assessment.job.decisions if decision.inputs == mark), None)
        now = next((finding for finding in _referred(assessment) if lapsed is not None and finding.key == lapsed.key), None)
        _refuse(
            f"no referred finding has the mark {mark!r}."
            + (
                f" It was that of {now.key}, which is now {now.inputs}: look at it again."
                if now
                else " Where one had it, an input has changed since."
            ),
            "`liftout decide JOB` lists the marks.",
        )
    return found


def _piped(assessment: Assessment, asked: Namespace, told: dict[str, str]) -> list[tuple[Finding, dict[str, str]]]:
    """Decisions from standard input; what the arguments say holds for each that does not say it itself."""
    import json

    limit = 1_000_000
    if asked.marks:
        _refuse("with --read, marks come from standard input.")
    text = sys.stdin.read(limit + 1)
    try:
        said: Any = json.loads(text) if len(text) <= limit else None
    except (ValueError, RecursionError):
        said = None
    said = [said] if isinstance(said, dict) else said
    if (
        not isinstance(said, list)
        or not said
        or not all(isinstance(one, dict) and all(isinstance(word, str) for word in one.values()) for one in said)
    ):
        _refuse('standard input is no list of decisions. Write JSON: [{"mark": "...", "decision": "accepted", "reason": "..."}].')
    wrong = dict.fromkeys(key for one in said for key in one if key not in ("mark", *ASKED))
    if wrong:
        _refuse(f"a decision on standard input has no {', '.join(wrong)}. Its keys are: mark, {', '.join(ASKED)}.")
    return [(_found(assessment, one.get("mark", "")), told | {key: word for key, word in one.items() if key != "mark"}) for one in said]


def _says(finding: Finding, words: dict[str, str]) -> bool:
    """Whether the decision that stands says these very words: whoever was stopped, or was not sure, says it again."""
    stands = finding.decision
    return stands is not None and all(words.get(name) == getattr(stands, name) for name in ASKED)


def _allowed(findings: Sequence[Finding], assessment: Assessment, asked: Namespace, *, by_person: bool) -> None:
    """A decision that lapsed or stands is decided on anew only on purpose."""
    lapsed = _lapsed(assessment)
    if len({finding.key for finding in findings}) < len(findings):
        _refuse("one finding is decided on twice.")
    for finding in findings:
        before = lapsed.get(finding.key)
        if before is not None and not asked.renew:
            if by_person and _yes("An earlier decision has lapsed; what changed is shown above. Decide anew?"):
                continue
            _refuse(
                f"{finding.key}: an earlier decision by {before.name}, {before.date}, has lapsed.",
                *_changes(before, finding),
                "Add --renew to decide anew.",
            )
        if before is not None and not by_person and not asked.json:
            print(f"{finding.key}: renews the lapsed decision by {before.name}, {before.date}.", *_changes(before, finding), sep="\n")
        if finding.decision is not None and not asked.again:
            made = finding.decision
            if by_person and _yes(f"{made.name} decided on {made.date}: {made.decision}. Decide again?"):
                continue
            _refuse(
                f"{finding.key}: {made.name} decided on {made.date}: {made.decision}.",
                "Add --again to decide anew; the earlier decision stays in the file.",
            )


def _changes(before: Decision, finding: Finding) -> list[str]:
    from liftout.records.decided import changed_inputs

    return [f"  {_sentence(change)}" for change in changed_inputs(before, finding)] or [
        f"  What it was made on is not written with it; its mark was {before.inputs} and is now {finding.inputs}."
    ]


def _made(assessment: Assessment, said: Iterable[tuple[Finding, dict[str, str]]]) -> tuple[Decision, ...]:
    from liftout.job import JobError
    from liftout.job.reader import unseen
    from liftout.records.decided import read, seen

    invented: dict[str, Any] = {"demonstration": "yes"} if assessment.job.document.papers.demonstration else {}
    written = []
    for finding, told in said:
        missing = [f"--{name}  {meaning}" for name, meaning in ASKED.items() if not told.get(name, "").strip()]
        if missing:
            _refuse(f"a decision on {finding.key} needs:", *(f"  {line}" for line in missing))
        hidden = [f"{name}: holds the invisible character {found[1]}." for name in ASKED if (found := unseen(told[name]))]
        if hidden:
            _refuse(*hidden)
        named = {"criterion": finding.criterion, "subject": finding.subject, **({"state": finding.state} if finding.state else {})}
        written.append(named | {"inputs": finding.inputs} | {name: told[name] for name in ASKED} | {"seen": seen(finding)} | invented)
    try:
        made = read(written, assessment.job)
    except JobError as error:
        _refuse(*dict.fromkeys(f"{fault.path[-1] if fault.path else 'decision'}: {fault.wrong} {fault.right}" for fault in error.faults))
    _not_ahead(made)
    return made


def _not_ahead(made: Sequence[Decision]) -> None:
    """A day ahead may be today elsewhere; two days ahead is a slip."""
    import datetime

    latest = datetime.datetime.now(tz=datetime.UTC).date() + datetime.timedelta(days=1)
    for decision in made:
        if decision.date > latest:
            _refuse(
                f'date: "{decision.date}" has not come yet, by the clock of this machine, which says {latest - datetime.timedelta(days=1)}. '
                "Write the day of the decision, or set the clock right."
            )


def _write(assessment: Assessment, made: Sequence[Decision]) -> None:
    from liftout.records.decided import NotWritten, Overtaken, add

    try:
        add(assessment.job, made)
    except (NotWritten, Overtaken) as reason:
        _refuse(str(reason).removesuffix(" Nothing was written."))


def _print_written(job: Path, made: Sequence[Decision]) -> None:
    print(f"{job.with_name('decisions.yaml')}")
    for decision in made:
        print(f"{decision.decision}: {decision.key}, by {decision.name}, {decision.licence}, {decision.date}")
    print("It holds for the inputs of this moment, and lapses when one of them changes. The verdict stays as it was computed.")


# --- at the keyboard ---------------------------------------------------------------------------------------------


def _answer(question: str) -> str:
    try:
        return input(question).strip()
    except (EOFError, KeyboardInterrupt):
        print()
        _refuse("broken off.")


def _yes(question: str) -> bool:
    return _answer(f"{question} Write yes or no: ") == "yes"


def _chosen(assessment: Assessment) -> list[Finding]:
    waiting = _waiting(assessment)
    _print_waiting(assessment, waiting, _lapsed(assessment))
    while True:
        words = _answer("\nNumbers of the findings decided on together, for example 1 3; nothing to leave: ").replace(",", " ").split()
        if not words:
            _refuse("no finding was chosen.")
        if all(word.isascii() and word.isdigit() and 1 <= int(word) <= len(waiting) for word in words):
            return [waiting[number - 1] for number in dict.fromkeys(int(word) for word in words)]
        print(f"Write numbers from 1 to {len(waiting)}.")


def _prompted(told: dict[str, str]) -> dict[str, str]:
    import datetime

    today = datetime.datetime.now().astimezone().date().isoformat()
    answers = dict(told)
    for name, meaning in ASKED.items():
        while not answers.get(name, "").strip() or (name == "decision" and answers[name] not in ("accepted", "refused")):
            answers[name] = _answer(f"{name} ({meaning}){f' [{today}]' if name == 'date' else ''}: ") or (today if name == "date" else "")
    return answers


def _confirm(made: Sequence[Decision]) -> None:
    first = made[0]
    print(f"\n{first.decision}, by {first.name}, {first.licence}, {first.date}\nreason: {first.reason}\ndata: {first.data}")
    for decision in made:
        print(f"  {decision.key}")
    if not _yes("Write this down?"):
        _refuse("not confirmed.")
