"""`liftout verify`: a PDF of a docket, issued again from the job inside it and held against itself."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from liftout.cli.as_json import print_json
from liftout.cli.terminal import Style, styled

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Callable

    from liftout.records.signed import Signed
    from liftout.records.verified import Outcome, Verified

PAGES_SHOWN = 12
"""Pages that are listed with what differs on them; --json has all."""


def arguments(parser: ArgumentParser) -> None:
    """Issue each PDF of a docket again from the job inside it, and say what differs."""
    parser.add_argument("papers", metavar="PDF", type=Path, nargs="+", help="PDF of a docket, as `liftout issue` wrote it")
    parser.add_argument("--json", action="store_true", help="print what was found as JSON, a list with one object a PDF")


def verify(asked: Namespace) -> int:
    from liftout.cli.exits import Exit
    from liftout.cli.telling import telling

    codes: list[int] = []
    told: list[dict[str, Any]] = []
    for file in asked.papers:
        with telling() as step:
            found = _looked_at(file, asked.papers, step)
        if isinstance(found, str):
            told.append({"file": str(file), "outcome": "not read", "says": found})
            codes.append(Exit.UNREADABLE)
            if not asked.json:
                print(found, file=sys.stderr)
            continue
        told.append({"file": str(file), **found.as_data()})
        codes.append(_code(found.outcome))
        if not asked.json:
            _print(file, found)
    if asked.json:
        print_json(told)
    elif any(code != Exit.UNREADABLE for code in codes):
        _print_reach()
    return max(codes, key=_gravity)


def _gravity(code: int) -> int:
    return (0, 3, 65, 1).index(code)


def _code(outcome: Outcome) -> int:
    from liftout.cli.exits import Exit
    from liftout.records.verified import Outcome

    if outcome in (Outcome.HOLDS, Outcome.SIGNED, Outcome.LISTED):
        return Exit.CLEAR
    return Exit.DOES_NOT_CONFORM if outcome in (Outcome.DIFFERS, Outcome.BROKEN_SIGNATURE, Outcome.NOT_LISTED) else Exit.OPEN


def _looked_at(file: Path, given: list[Path], step: Callable[[str], None]) -> Verified | str:
    """What was found of a PDF, or in words why nothing can be; `given` are all PDF files of the command."""
    from liftout.assessment import Broken
    from liftout.cli.exits import Exit
    from liftout.records.carried import read
    from liftout.records.verified import JobError, NotRead
    from liftout.records.verified import verify as verified

    try:
        step(f"reading {file.name}")
        carried = read(file)
        return verified(carried, step)
    except NotRead as reason:
        return _annex(file, given, str(reason))
    except JobError as error:
        release = str(carried.findings.get("liftout", "not said"))
        return (
            f"{file}: the job inside it cannot be read by this release. The paper names liftout {release} as the one that issued it: "
            f"verify it with that release; where it is this one, the job inside was changed.\n{error}"
        )
    except Broken as error:
        print(f"liftout itself is broken: {error}\nPlease send this line and the PDF to the developers.", file=sys.stderr)
        raise SystemExit(Exit.BROKEN) from error


def _annex(file: Path, given: list[Path], otherwise: str) -> Verified | str:
    """What a docket at hand lists of a file that is no paper; `otherwise` where none lists it."""
    from liftout.records.annexes_verified import at_hand, verify_annex
    from liftout.records.carried import NotRead

    try:
        return verify_annex(file, at_hand(file, given)) or otherwise
    except NotRead as reason:
        return str(reason)


# --- for people --------------------------------------------------------------------------------------------------

_STYLE: dict[str, Style] = {"DIFFERS": "red", "BROKEN_SIGNATURE": "red", "NOT_LISTED": "red", "HOLDS": "bold", "SIGNED": "bold", "LISTED": "bold"}
_WORD = dict.fromkeys(("DIFFERS", "BROKEN_SIGNATURE", "NOT_LISTED"), "DOES NOT HOLD") | dict.fromkeys(("HOLDS", "SIGNED", "LISTED"), "holds")


def _print(file: Path, found: Verified) -> None:
    print(f"{file}: {found.title}, {found.number} revision {found.revision}, issued by liftout {found.liftout}")
    print("  " + styled(f"{_word(found.outcome)}: {found.outcome}", _STYLE.get(found.outcome.name, "yellow")))
    for line in found.why:
        print(f"  {line}")
    if found.redacted:
        _print_copy()
    _print_signatures(found.signatures)
    for name in found.differ:
        print(f"  digest of {name}: recorded {found.recorded.get(name, 'none')[:12]}, now {found.now[name][:12]}")
    for key in found.findings[:PAGES_SHOWN]:
        print(f"  recorded otherwise than it comes out: {key}")
    _more(len(found.findings) - PAGES_SHOWN, "findings")
    if found.held is not None:
        _print_held(found)


def _word(outcome: Outcome) -> str:
    return _WORD.get(outcome.name, "open")


def _print_signatures(signatures: tuple[Signed, ...]) -> None:
    for one in signatures:
        fits = {True: "fits its bytes", False: f"BROKEN: {one.trouble}", None: "not checked"}[one.intact]
        print(f"  signed in the field {one.field}: {fits}")
        if one.by:
            print(f"    claims to be by {one.by}, {one.when} by the clock of the signer's computer")
        if one.issuer:
            print(f"    certificate {one.serial}, issued by {one.issuer}")
    if signatures:
        print(
            "  Whose a signature is rests on its certificate. No issuer is trusted here and none was asked: whoever relies on it looks at the issuer."
        )


def _print_held(found: Verified) -> None:
    held = found.held
    assert held is not None
    if held.pages != held.pages_again:
        print(f"  pages: {held.pages}, and {held.pages_again} when it is issued again")
    for what in held.besides:
        print(f"  differs: {what}")
    if not held.differing:
        print(f"  pages: all {held.pages} are drawn from the same")
        return
    print(f"  pages that are drawn otherwise: {len(held.differing)} of {max(held.pages, held.pages_again)}")
    shown = sorted(held.differing, key=lambda one: (not (one.stands or one.follows), one.number))[:PAGES_SHOWN]
    for one in shown:
        print(f"    page {one.number}: {', '.join(one.parts)}")
        if one.stands or one.follows:
            print(f'      it reads   "{one.stands}"\n      the job has "{one.follows}"')
    _more(len(held.differing) - len(shown), "pages")


def _more(count: int, what: str) -> None:
    if count > 0:
        print(f"    and {count} more {what}; --json lists them")


def _print_copy() -> None:
    print(
        "  This is a redacted copy. It follows from the redacted job inside it, no more: it does not show who measured and who decided, that the marks\n"
        "  stand for the names of the docket as issued, nor what its annexes held. That docket shows it."
    )


def _print_reach() -> None:
    from liftout import __version__
    from liftout.identity.digests import engine_digest
    from liftout.job.whole import LANGUAGE
    from liftout.records.verified import FIRST_TO_VERIFY

    print(
        "\nThis shows whether a paper follows from the job inside it, and not who made either: that takes a signature, or the register of the shop.\n"
        f"liftout {__version__} proves to the byte what was issued with its own engine, {engine_digest()[:12]}. Of papers of other releases in job language\n"
        f"{LANGUAGE} it works the job again and compares findings and pages; what then differs, only the release named in the paper can prove, from\n"
        f"{FIRST_TO_VERIFY} on. Papers of releases before it can be compared, and be proved by none."
    )
