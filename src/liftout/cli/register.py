"""`liftout register`: issued dockets, what they carry, what a correction made stale, recalls, and units that serve several aircraft."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from liftout.cli.as_json import print_json
from liftout.cli.terminal import styled

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

    from liftout.records.register_index import Index
    from liftout.records.register_recall import Followed
    from liftout.records.register_units import Swapped
    from liftout.records.register_view import Docket

EVENTS = ("weighed", "fitted", "removed", "inspected", "repaired", "withdrawn")
"""Those of `records.register_units`, which is not loaded for a help text; a test holds the two together."""


def arguments(parser: ArgumentParser) -> None:
    """See what was issued, which aircraft carry a part, what is stale; follow a recall; keep the log of a unit."""
    uses = parser.add_subparsers(metavar="USE", required=True, dest="use")
    for name, meaning, more in (
        ("list", "list the dockets, which revision holds, and how far each is closed", _nothing),
        ("carries", "list the aircraft that carry a part", _carries_arguments),
        ("stale", "list the dockets that a corrected table, catalogue entry or method made stale", _nothing),
        ("used", "list the dockets that used a criterion, a row of a table or a catalogue entry", _used_arguments),
        ("recall", "open a recall, follow it, or close it for one aircraft", _recall_arguments),
        ("unit", "show the log of a unit, or enter a line", _unit_arguments),
        ("swap", "show whose limits a unit would exceed with its own mass", _swap_arguments),
        ("mend", "set half-written files aside and enter dockets that the register does not have", _nothing),
    ):
        use = uses.add_parser(name, help=meaning, description=meaning[0].upper() + meaning[1:] + ".", allow_abbrev=False)
        more(use)
        use.add_argument("--jobs", metavar="FOLDER", type=Path, default=Path(), help="the jobs folder; without it, the folder you are in")
        use.add_argument("--json", action="store_true", help="print as JSON")


def _nothing(_: ArgumentParser) -> None:
    pass


def _carries_arguments(use: ArgumentParser) -> None:
    use.add_argument("part", metavar="PART", help="part number")
    use.add_argument("--serial", action="append", default=[], help="only this serial number; may be given again")
    use.add_argument("--batch", action="append", default=[], help="only this batch; may be given again")


def _used_arguments(use: ArgumentParser) -> None:
    use.add_argument("name", metavar="NAME", help='"electrical.voltage_drop", "methods: hot copper" or "airframes/halden_4.yaml"')
    use.add_argument("--digest", default="", help="only this edition of it, by the beginning of its digest")


def _recall_arguments(use: ArgumentParser) -> None:
    use.add_argument("mark", metavar="MARK", nargs="?", help="what the recall is called; all without it")
    use.add_argument("--part", metavar="PART", help="open it: of this part number")
    use.add_argument("--serial", action="append", default=[], help="of the part, this serial number; may be given again")
    use.add_argument("--batch", action="append", default=[], help="of the part, this batch; may be given again")
    use.add_argument("--criterion", help="open it: of a method that was found wrong")
    use.add_argument("--row", help="open it: of a row of a table, methods among them")
    use.add_argument("--catalogue", help="open it: of a catalogue entry")
    use.add_argument("--digest", default="", help="of a criterion, row or entry, this edition only")
    use.add_argument("--why", help="why it is recalled")
    use.add_argument("--done-for", metavar="AIRCRAFT", help="close it for this aircraft, by its serial number")
    use.add_argument("--done", help="what was done")
    use.add_argument("--by", help="who opens or closes it")
    use.add_argument("--date", help="when, as 2026-11-30")


def _unit_arguments(use: ArgumentParser) -> None:
    use.add_argument("serial", metavar="SERIAL", help="serial number of the unit")
    use.add_argument("--event", choices=EVENTS, help="enter a line: what happened")
    use.add_argument("--part", metavar="PART", help="part number of the unit, with its first line")
    use.add_argument("--mass", help="what it weighed, with its unit")
    use.add_argument("--aircraft", default="", help="the aircraft")
    use.add_argument("--note", default="", help="more; of a weighing, the instrument")
    use.add_argument("--by", help="who")
    use.add_argument("--date", help="when, as 2026-11-30")


def _swap_arguments(use: ArgumentParser) -> None:
    use.add_argument("serial", metavar="SERIAL", help="serial number of the unit")


def register(asked: Namespace) -> int:
    from liftout.cli.exits import Exit
    from liftout.cli.telling import telling
    from liftout.records.register import RegisterError
    from liftout.records.register_index import index

    if not asked.jobs.is_dir():
        _stop(f"{asked.jobs} is no folder. Give the jobs folder with --jobs.")
    try:
        with telling() as step:
            step("reading the register")
            with index(asked.jobs) as found:
                step("looking it up")
                data, lines, code = _USES[asked.use](asked, found)
                warnings = list(_warnings(asked, found))
    except RegisterError as error:
        print(str(error), file=sys.stderr)
        return Exit.UNREADABLE
    for warning in warnings:
        print(styled(warning, "yellow") if sys.stderr.isatty() else warning, file=sys.stderr)
    if asked.json:
        print_json(data)
    else:
        print("\n".join(lines))
    return int(code)


def _stop(words: str) -> NoReturn:
    from liftout.cli.exits import Exit

    print(words, file=sys.stderr)
    raise SystemExit(Exit.MISTYPED)


def _warnings(asked: Namespace, found: Index) -> Iterator[str]:
    if asked.use == "mend":
        return
    for one in found.unreadable:
        yield f"{one.name} in the register is left out: {one.why}."
    for folder in found.unregistered:
        yield f"{folder} is not in the register."
    if found.unreadable or found.unregistered:
        yield "liftout register mend sets the register in order and loses nothing."
    if found.note:
        yield f"Note: {found.note}."


Answer = tuple[Any, list[str], int]
"""What a use gives: data for machines, lines for a person, an exit code."""


def _list(asked: Namespace, found: Index) -> Answer:
    from liftout.records.register_view import disputes, dockets

    shown = dockets(found)
    data = [
        {
            "number": one.body["number"],
            "revision": one.body["revision"],
            "date": one.body["date"],
            "aircraft": one.body["aircraft"],
            "folder": one.body["folder"],
            "superseded by": one.superseded_by or None,
            "open findings": one.body["open"],
            "as fitted": [{"record": record["record"], "date": record["date"], "open": record["open"]} for record in one.records],
            "items": [
                {"item": item.item, "part number": item.part_number, "serial": item.serial, "batch": item.batch, "recorded": item.recorded}
                for item in one.fitted
            ],
        }
        for one in shown
    ]
    lines = []
    for one in shown:
        lines.append(styled(f"{one.name}, {one.body['date']}: {one.aircraft}", "bold" if one.holds else None))
        held = "holds" if one.holds else f"superseded by {one.superseded_by}"
        findings = f"; {one.body['open']} findings open when it was issued" if one.body["open"] else ""
        there = "" if (asked.jobs / one.body["folder"]).is_dir() else ", which is not there: issue it again from the same job"
        lines.append(f"  {held}; {one.standing}{findings}; in {one.body['folder']}{there}")
        lines.extend(f"  {item.item}: {_unit_words(item)}" for item in one.fitted if item.part_number or item.serial)
    quarrels = list(disputes(shown))
    lines += [styled(quarrel, "yellow") for quarrel in quarrels]
    return data, lines or ["The register holds no docket yet; liftout issue enters one."], 3 if quarrels else 0


def _unit_words(item: Any) -> str:
    words = [("part", item.part_number), ("serial", item.serial), ("batch", item.batch)]
    told = ", ".join(f"{label} {text}" for label, text in words if text)
    return f"{told} ({'as fitted' if item.recorded else 'as the docket says; not recorded as fitted'})"


def _carries(asked: Namespace, found: Index) -> Answer:
    from liftout.records.register_view import carrying

    hits = list(carrying(found, asked.part, asked.serial, asked.batch))
    data = [
        {
            "aircraft": one.body["aircraft"],
            "docket": one.name,
            "item": item.item,
            "serial": item.serial,
            "batch": item.batch,
            "recorded": item.recorded,
        }
        for one, item in hits
    ]
    lines = [f"{one.aircraft}, {one.name}: {item.item}, {_unit_words(item)}" for one, item in hits]
    return data, lines or [f"No docket in use names the part {asked.part}."], 0


def _stale(asked: Namespace, found: Index) -> Answer:
    from liftout.records.register_view import stale

    hits = stale(found, asked.jobs)
    data = [{"docket": one.docket.name, "aircraft": one.docket.body["aircraft"], "corrected": [list(pair) for pair in one.corrected]} for one in hits]
    lines = []
    for one in hits:
        lines.append(styled(f"{one.docket.name}: {one.docket.aircraft}", "bold"))
        for what in ("row", "catalogue", "criterion"):
            names = [name for kind, name in one.corrected if kind == what]
            if names:
                lines.append(f"  {len(names)} {_PLURAL[what] if len(names) > 1 else _ONE[what]} corrected since: {', '.join(names)}")
    if hits:
        lines.append("Issue each again under a new revision, and see with liftout compare what changed.")
    return data, lines or ["No docket in use is stale."], 3 if hits else 0


_ONE = {"row": "row of a table", "catalogue": "catalogue entry", "criterion": "method of a criterion"}
_PLURAL = {"row": "rows of tables", "catalogue": "catalogue entries", "criterion": "methods of criteria"}


def _what_is(found: Index, name: str) -> str:
    """Whether a name is that of a criterion, a row or a catalogue entry."""
    import difflib

    known = {what: found.names_used(what) for what in ("criterion", "row", "catalogue")}
    for what, names in known.items():
        if name in names:
            return what
    near = difflib.get_close_matches(name, [one for names in known.values() for one in names], n=1, cutoff=0.5)
    _stop(f'No docket used "{name}".' + (f'  Did you mean "{near[0]}"?' if near else ""))


def _used(asked: Namespace, found: Index) -> Answer:
    from liftout.records.register_view import users

    what = _what_is(found, asked.name)
    digests = found.users(what, asked.name)
    hits: list[Docket] = list(users(found, what, asked.name, asked.digest))
    data = [{"docket": one.name, "aircraft": one.body["aircraft"], "holds": one.holds, "digest": digests[one.file]} for one in hits]
    lines = [
        f"{one.name}{'' if one.holds else f' (superseded by {one.superseded_by})'}: {one.aircraft}; edition {digests[one.file][:12]}" for one in hits
    ]
    return data, lines or [f"No docket used that edition of {asked.name}."], 0


def _recall(asked: Namespace, found: Index) -> Answer:
    from liftout.records import register_recall as recalls
    from liftout.records.register import RegisterError

    opens = {"part number": asked.part, "criterion": asked.criterion, "row": asked.row, "catalogue": asked.catalogue}
    if asked.mark is None:
        marks = recalls.marks(found)
        followed = {one["mark"]: recalls.follow(found, one["mark"]) for one in marks}
        lines = [f"{one['mark']}, {one['date']}: {_recalled(one)}; {sum(each.open for each in followed[one['mark']])} open" for one in marks]
        still = any(each.open for all_of in followed.values() for each in all_of)
        return marks, lines or ["There is no recall."], 3 if still else 0
    if any(opens.values()) or asked.done_for:
        missing = [flag for flag, text in (("--by", asked.by), ("--date", asked.date)) if not text]
        missing += ["--why"] if any(opens.values()) and not asked.why else []
        missing += ["--done"] if asked.done_for and not asked.done else []
        if missing:
            _stop(f"Say also {', '.join(missing)}.")
        person = {"by": asked.by, "date": _day(asked.date)}
        if any(opens.values()) and asked.done_for:
            raise RegisterError("Open a recall first, then close it aircraft by aircraft.")
        if any(opens.values()):
            for what in ("criterion", "row", "catalogue"):
                if opens[what] and opens[what] not in found.names_used(what):
                    _stop(f'No docket used the {what} "{opens[what]}". liftout register used NAME finds the nearest name.')
            told = {key: text for key, text in opens.items() if text}
            recalls.open_recall(
                asked.jobs, asked.mark, {**told, "serials": asked.serial, "batches": asked.batch, "digest": asked.digest, "why": asked.why, **person}
            )
        else:
            recalls.close_for(asked.jobs, found, asked.mark, asked.done_for, {"done": asked.done, **person})
        return _again(asked)
    return _followed(asked, found)


def _again(asked: Namespace) -> Answer:
    """The recall with what was just entered."""
    from liftout.records.register_index import index

    with index(asked.jobs) as found:
        return _followed(asked, found)


def _followed(asked: Namespace, found: Index) -> Answer:
    from liftout.records import register_recall as recalls

    followed = recalls.follow(found, asked.mark)
    said = next(one for one in recalls.marks(found) if one["mark"] == asked.mark)
    data = {
        "recall": said,
        "aircraft": [{"aircraft": one.aircraft, "docket": one.docket, "reach": str(one.reach), "why": one.why, "done": one.done} for one in followed],
    }
    lines = [styled(f"{said['mark']}, {said['date']}, by {said['by']}: {_recalled(said)}, because {said['why']}", "bold")]
    for reach in recalls.Reach:
        of_it = [one for one in followed if one.reach is reach]
        lines.append(f"{reach}: {len(of_it)}")
        lines += [f"  {_line(one)}" for one in of_it]
    still = sum(one.open for one in followed)
    lines.append(f"{still} open." if still else "Closed for every aircraft of the register.")
    return data, lines, 3 if still else 0


def _line(one: Followed) -> str:
    done = f"; done {one.done['date']} by {one.done['by']}: {one.done['done']}" if one.done else ""
    return f"{one.aircraft}{f', {one.docket}' if one.docket else ''}: {one.why}{done}" + (styled("; open", "yellow") if one.open else "")


def _recalled(said: dict[str, Any]) -> str:
    what = next(key for key in ("part number", "criterion", "row", "catalogue") if said.get(key))
    among = [*(f"serial {text}" for text in said["serials"]), *(f"batch {text}" for text in said["batches"])]
    edition = f", edition {said['digest']}" if said.get("digest") else ""
    units = f" ({', '.join(among)})" if among else ""
    return f"{what} {said[what]}{units}{edition}"


def _day(text: str) -> str:
    import datetime

    try:
        return datetime.date.fromisoformat(text).isoformat()
    except ValueError:
        _stop(f'"{text}" is not a date. Write year, month, day: 2026-11-30.')


def _unit(asked: Namespace, found: Index) -> Answer:
    from liftout.records.register_index import index
    from liftout.records.register_units import enter, log, part_number

    if asked.event:
        missing = [flag for flag, text in (("--by", asked.by), ("--date", asked.date)) if not text]
        missing += ["--mass"] if asked.event == "weighed" and not asked.mass else []
        missing += ["--aircraft"] if asked.event in ("fitted", "removed") and not asked.aircraft else []
        if missing:
            _stop(f"Say also {', '.join(missing)}.")
        told = {"part number": asked.part, "mass": asked.mass, "aircraft": asked.aircraft, "note": asked.note}
        said = {"event": asked.event, "by": asked.by, "date": _day(asked.date), **{key: text for key, text in told.items() if text}}
        enter(asked.jobs, found, asked.serial, said)
    with index(asked.jobs) as now:
        part, events = part_number(now, asked.serial), log(now, asked.serial)
    if not events:
        _stop(f'The register knows no unit "{asked.serial}". Its first line says --event, --part, --by and --date.')
    data = {"serial": asked.serial, "part number": part, "log": [_event(one) for one in events]}
    lines = [styled(f"Unit {asked.serial}, part {part or 'not said'}", "bold")]
    lines += [f"  {' '.join(text for text in (one.date, one.what, one.mass, one.aircraft) if text)}{_who(one)}" for one in events]
    return data, lines, 0


def _event(one: Any) -> dict[str, str]:
    return {"date": one.date, "event": one.what, "aircraft": one.aircraft, "mass": one.mass, "by": one.by, "note": one.note}


def _who(one: Any) -> str:
    return f" ({', '.join(text for text in (one.by, one.note) if text)})" if one.by or one.note else ""


def _swap(asked: Namespace, found: Index) -> Answer:
    from liftout.records.register_units import swapped

    hits: list[Swapped] = list(swapped(found, asked.jobs, asked.serial))
    data = [
        {
            "aircraft": one.docket.body["aircraft"],
            "docket": one.docket.name,
            "item": one.item,
            "mass before": one.mass_before,
            "open with it": [
                {"criterion": each.criterion, "subject": each.subject, "state": each.state, "verdict": str(each.verdict), "sentence": each.sentence}
                for each in one.exceeded
            ],
            "fault": one.fault or None,
        }
        for one in hits
    ]
    lines = []
    for one in hits:
        count = len(one.exceeded)
        result = one.fault or (f"{count} {'finding' if count == 1 else 'findings'} would be open" if count else "no other finding would be open")
        lines.append(styled(f"{one.docket.aircraft}, {one.docket.name}: in the place of the {one.item} ({one.mass_before}), {result}", "bold"))
        lines += [f"  {each.title}, {', '.join(part for part in (each.subject, each.state) if part)}: {each.sentence}" for each in one.exceeded]
    failing = any(one.fault or any(each.verdict == "does not conform" for each in one.exceeded) for one in hits)
    still = any(one.exceeded for one in hits)
    return data, lines or ["No docket in use carries such a part."], 1 if failing else 3 if still else 0


def _mend(asked: Namespace, found: Index) -> Answer:
    from liftout.records.register_mend import mend

    done = list(mend(asked.jobs, found.unreadable, found.unregistered))
    return done, done or ["The register is in order."], 0


_USES = {
    "list": _list,
    "carries": _carries,
    "stale": _stale,
    "used": _used,
    "recall": _recall,
    "unit": _unit,
    "swap": _swap,
    "mend": _mend,
}
