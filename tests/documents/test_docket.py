"""The docket: its documents, what stands on every page, and that each chapter has something to say for any job."""

from __future__ import annotations

import html
import io
import re
import shutil
from collections import Counter
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from liftout.assessment import Assessment, Lapsed, assess
from liftout.criteria import all_criteria
from liftout.documents import paper, site
from liftout.documents.blocks import Block, Checklist, Figure, Paragraph, Shared, Signature, Steps, Table, Tabled, Working, plain
from liftout.documents.chapters.matter import Matter
from liftout.documents.chapters.said import BLANK, LINE, everything_said, ground_of, named, subject_of
from liftout.documents.chapters.values import rested_on
from liftout.documents.docket import ANNEXES, PLANS, documents, standing
from liftout.documents.document import Chapter, Document, OnScreen, check
from liftout.documents.working import sheet
from liftout.facts.fact import STATED
from liftout.findings import Decision, Finding, Verdict
from liftout.identity.digests import digests
from liftout.job import load
from liftout.job.decisions import Decision as Said
from liftout.job.validator import validator
from liftout.resources import folder
from liftout.tables import table
from liftout.worked.balance.amended_empty_weight import amended_empty_weight

DEMONSTRATION = Path(folder("jobs")) / "halden_4_cooler" / "job.yaml"

BARE = """\
liftout: 1
papers: {number: BARE-1, revision: A, date: 2026-01-01, shop: the bench}
aircraft:
  kind: aeroplane
  model: bench
  kinds of operation: [day VFR]
  datums: {firewall: {where: front face}}
  weight record: [{title: weighing, date: 2020-01-01, datum: firewall, oil: in}]
equipment:
  "rack | *one*": {description: "a rack, {{ 7 }} <b>", stays: removable}
  bracket: {description: what holds the rack, stays: provision}
"""
"""Almost nothing said, and a name that no typesetter likes."""

FULLER = """\
  pump: {description: a pump, stays: removable}
wiring: {runs: {W1: {source: alternator, load: pump}}}
electrical: {sources: {alternator: {}}}
lines: {loops: {cold loop: {segments: {out: {kind: tube, begins: pump, ends: rack, datum: firewall}}, items: [pump]}}}
openings: {holes: {pass: {through: pressure bulkhead, for: a line}}}
removal: {pump: {disconnections: {out: {kind: coolant line}}}}
restraint: {pump: {straps: {A: {attached: {arm: 1 in, lateral: 0 in, height: 1 in}, anchored: {arm: 2 in, lateral: 0 in, height: 0 in}}}}}
"""
"""Every section begun, and nothing in it finished."""

DECLINED = """\
wiring: {none: it draws no current}
electrical: {none: there is no electrical system}
lines: {none: it holds no liquid}
openings: {none: no hole is made}
"""


def assessed(folder_: Path, text: str) -> Assessment:
    """A job written to a jobs folder, assessed."""
    place = folder_ / "jobs" / "one"
    place.mkdir(parents=True)
    (place / "job.yaml").write_text(text, encoding="utf-8")
    return assess(load(place / "job.yaml"))


def docket_of(assessment: Assessment) -> tuple[Document, ...]:
    return documents(assessment, digests(assessment))


@pytest.fixture(scope="module")
def demonstration() -> Assessment:
    return assess(load(DEMONSTRATION))


@pytest.fixture(scope="module")
def docket(demonstration: Assessment) -> tuple[Document, ...]:
    return docket_of(demonstration)


@pytest.fixture(scope="module", params=["bare", "begun", "declined"])
def poor(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Assessment:
    text = {"bare": BARE, "begun": BARE + FULLER, "declined": BARE + DECLINED}[request.param]
    return assessed(tmp_path_factory.mktemp(request.param), text)


@pytest.fixture(scope="module")
def poor_docket(poor: Assessment) -> tuple[Document, ...]:
    return docket_of(poor)


def texts(value: Any) -> Iterator[str]:
    """Every text in a document that is the docket's own; workings have tests of their own."""
    match value:
        case str():
            yield value
        case Working() | Shared() | Tabled() | Figure():
            return
        case Chapter(key, title, inside):
            yield from texts((key, title, inside))  # the loading planner, which only the site has, has tests of its own
        case OnScreen(key, title):
            yield from texts((key, title))  # what the job and the tables hold, as it was written
        case tuple() | list():
            for item in value:
                yield from texts(item)
        case _ if is_dataclass(value) and not isinstance(value, type):
            for field in fields(value):
                yield from texts(getattr(value, field.name))


def blocks(document: Document) -> list[Block]:
    return [block for chapter in document.chapters for block in chapter.blocks]


def chapter(document: Document, key: str) -> Chapter:
    return next(chapter for chapter in document.chapters if chapter.key == key)


def place_blocks(place: Chapter | tuple[Block, ...]) -> tuple[Block, ...]:
    return place.blocks if isinstance(place, Chapter) else place


def squeezed(text: str) -> str:
    return re.sub(r"[\s\u200b]+", "", text)


def words_of(place: Chapter) -> str:
    return "\n".join(texts(place))


def words(document: Document) -> str:
    """All the words of a document, each block on lines of its own."""
    return "\n".join(texts(document.chapters))


# --- the documents --------------------------------------------------------------------------------------------


def test_a_docket_has_its_documents_in_their_numbers(docket: tuple[Document, ...], demonstration: Assessment) -> None:
    number = demonstration.job.document.papers.number
    assert [document.key for document in docket] == ["manual", "amendment", "checklist", "calculations", "records"]
    assert [document.number for document in docket] == [f"{number}-{place}" for place in (1, 2, 3, 4, 5)]
    for document, plan in zip(docket, PLANS, strict=True):
        check(document)
        assert document.readers
        assert document.purpose
        # A docket without annexes has no chapter on them; tests/records/test_annexes.py sees to one that has some.
        assert [chapter.title for chapter in document.chapters] == [title for key, title in plan.chapters.items() if key != ANNEXES]
        assert all(chapter.blocks for chapter in document.chapters)


def test_every_chapter_has_its_file_and_its_template() -> None:
    """A chapter is found by its key, and nothing lies about that no document uses."""
    wanted = {(plan.key, key.partition("-")[0]) for plan in PLANS for key in plan.chapters}
    templates = {(name, path.name.removesuffix(".md.j2")) for name in {plan.key for plan in PLANS} for path in (folder("templates") / name).iterdir()}
    modules = {path.stem for path in (Path(__file__).parents[2] / "src/liftout/documents/chapters").glob("*.py")}
    assert templates - {("manual", "hazards")} == wanted
    assert modules - {"__init__", "matter", "said"} == {chapter for _, chapter in wanted}


def test_what_stands_on_every_page(docket: tuple[Document, ...], demonstration: Assessment) -> None:
    serial = demonstration.facts.aircraft.serial_number
    assert ground_of(serial) in ("document", "stated", "measured", "nameplate")  # type: ignore[arg-type]
    for document in docket:
        assert document.effectivity.endswith(f"serial number {serial.value} only")  # type: ignore[union-attr]
        assert document.digest == digests(demonstration).job
        assert document.revisions[-1].number == document.revision


def test_the_standing_says_what_is_open_and_what_is_invented(demonstration: Assessment, tmp_path: Path) -> None:
    marked = standing(Matter(demonstration, digests(demonstration)))
    assert "DEMONSTRATION" in marked
    assert "NOT FOR INSTALLATION" in marked
    bare = assessed(tmp_path, BARE)
    assert len(bare.open) > 1
    assert standing(Matter(bare, digests(bare))) == f"INCOMPLETE - NOT FOR INSTALLATION, {len(bare.open)} open items"
    invented = assessed(tmp_path / "more", BARE.replace("shop: the bench", 'shop: the bench, demonstration: "yes"'))
    assert standing(Matter(invented, digests(invented))).startswith("INCOMPLETE - NOT FOR INSTALLATION")
    assert "DEMONSTRATION" in standing(Matter(invented, digests(invented)))


def test_nothing_is_marked_when_nothing_is_open_and_nothing_is_invented(demonstration: Assessment, tmp_path: Path) -> None:
    shutil.copytree(folder("jobs"), tmp_path / "jobs")
    path = tmp_path / "jobs" / "halden_4_cooler" / "job.yaml"
    for file in (path, path.with_name("decisions.yaml")):
        file.write_text(re.sub(r"\n +demonstration: .*", "", file.read_text(encoding="utf-8")), encoding="utf-8")
    real = assess(load(path))
    assert len(real.open) == len(demonstration.open)
    marked = standing(Matter(real, digests(real)))
    assert "DEMONSTRATION" not in marked
    assert bool(marked) == bool(real.open)


def test_an_invented_job_says_so_on_every_page(docket: tuple[Document, ...], tmp_path: Path) -> None:
    assert all("DEMONSTRATION" in document.standing for document in docket)
    for document in (docket[2], docket[4]):
        pages = PdfReader(io.BytesIO(paper.write(document))).pages
        assert len(pages) > 2
        for page in pages:
            assert squeezed(page.extract_text()).startswith(squeezed(document.standing))
    site.build(docket, tmp_path / "site", title="docket")
    shown = [*(tmp_path / "site").rglob("*.html")]
    assert len(shown) > sum(len(document.chapters) for document in docket)
    for page in shown:
        assert re.search(r'class="standing"><strong>[^<]*DEMONSTRATION', page.read_text(encoding="utf-8")), page


# --- what stands beside findings that somebody decides -----------------------------------------------------------


@pytest.fixture(scope="module")
def decided_docket(demonstration: Assessment) -> tuple[Assessment, tuple[Document, ...]]:
    """The demonstration with one finding decided by an invented person, and one decision that has lapsed."""
    first = next(finding for finding in demonstration.findings if finding.verdict is Verdict.REFER)
    made = Decision("accepted", "it was seen", "report R-7", "B. Roe", "engineer 0000", "2026-11-21", demonstration=True)
    old = {"criterion": "balance.gone", "subject": "tail unit", "state": "in", "inputs": "0" * 12, "decision": "accepted", "reason": "seen"}
    written = {**old, "data": "R-6", "name": "C. Poe", "licence": "engineer 0001", "date": "2026-01-02", "demonstration": "yes"}
    said = validator(Said).validate_python(written)
    findings = tuple(replace(finding, decision=made if finding is first else None) for finding in demonstration.findings)
    assessment = replace(
        demonstration, findings=findings, lapsed=(Lapsed(said, "an input of the finding has changed: its mark is now 123456789abc"),)
    )
    return assessment, docket_of(assessment)


def test_a_lapsed_decision_stands_with_its_reason_where_people_look(decided_docket: tuple[Assessment, tuple[Document, ...]]) -> None:
    _, made = decided_docket
    for place in (made[0].front, chapter(made[3], "summary"), chapter(made[2], "open_points")):
        said = "\n".join(texts(place))
        assert "balance.gone" in said
        assert "tail unit, in" in said
        assert "accepted: C. Poe (DEMONSTRATION), engineer 0001, 2026-01-02" in said
        assert "its mark is now 123456789abc" in said


def test_no_lapsed_decisions_are_spoken_of_where_there_are_none(docket: tuple[Document, ...]) -> None:
    for place in (docket[0].front, chapter(docket[3], "summary"), chapter(docket[2], "open_points")):
        assert "lapsed" not in "\n".join(texts(place))


def test_an_invented_decision_says_so_beside_the_name(decided_docket: tuple[Assessment, tuple[Document, ...]]) -> None:
    _, made = decided_docket
    for place in (made[0].front, chapter(made[3], "summary"), chapter(made[2], "open_points")):
        assert "B. Roe (DEMONSTRATION), engineer 0000, 2026-11-21" in "\n".join(texts(place))
    notes = [note for block in blocks(made[3]) if isinstance(block, Working) for note in sheet(block).notes if note.label == "Decision"]
    assert [note.texts[-1] for note in notes] == ["B. Roe (DEMONSTRATION), engineer 0000, 2026-11-21"]


def test_the_mark_of_the_inputs_stands_beside_each_referred_finding(decided_docket: tuple[Assessment, tuple[Document, ...]]) -> None:
    assessment, made = decided_docket
    referred = [finding for finding in assessment.findings if finding.verdict is Verdict.REFER]
    assert len(referred) > 2
    sheets = {of: sheet(Working(of)) for of in sheets_of(made[3])}
    marks = {of.key: [note.texts for note in shown.notes if note.label == "Mark of the inputs"] for of, shown in sheets.items()}
    for finding in assessment.findings:
        assert marks[finding.key] == ([(finding.inputs,)] if finding in referred else []), finding.key
    rows = [
        [plain(cell) for cell in row]
        for block in chapter(made[2], "open_points").blocks
        if isinstance(block, Table) and block.caption.startswith("Findings")
        for row in block.rows
    ]
    assert [row[3] for row in rows] == [finding.inputs or "none" for finding in assessment.open]


def test_what_is_open_is_told_with_its_case(demonstration: Assessment) -> None:
    poor = next(finding for finding in demonstration.findings if finding.case and finding.value_text)
    fails = replace(poor, verdict=Verdict.DOES_NOT_CONFORM)
    made = docket_of(replace(demonstration, findings=tuple(fails if finding is poor else finding for finding in demonstration.findings)))
    for place in (made[0].front, chapter(made[3], "summary"), chapter(made[2], "open_points")):
        rows = [" | ".join(plain(cell) for cell in row) for block in place_blocks(place) if isinstance(block, Table) for row in block.rows]
        (row,) = [row for row in rows if row.startswith(f"{fails.title} | {subject_of(fails)} | ")]
        assert fails.particulars in row


# --- what no document says, and what none leaves out -----------------------------------------------------------

FORBIDDEN = re.compile(r"\bairworthy\b|\blegal(ly)?\b|\b(is|are|was|were) approved\b|\bapproved by\b|no paperwork", re.IGNORECASE)
APPROVED = re.compile(r"approved(?! data)|(?<!not )(?<!Which )approved data")


def test_no_document_gives_a_verdict_that_is_not_ours(docket: tuple[Document, ...]) -> None:
    for text in (text for document in docket for text in texts(document)):
        assert not FORBIDDEN.search(text), text
        assert not APPROVED.search(text), text


def test_the_words_that_are_refused_are_found() -> None:
    assert FORBIDDEN.search("The aircraft is airworthy.")
    assert APPROVED.search("This is approved data.")
    assert APPROVED.search("an approved part")
    assert not APPROVED.search("They are not approved data.")


SPILLED = re.compile(r"\bNone\b|\bFact\(|\bMissing\(|\bDecimal\(|\bTrue\b|\bFalse\b|<[a-z_]+ object|\{\}|\[\]|\('")


def test_nothing_of_the_machine_shows(docket: tuple[Document, ...], poor_docket: tuple[Document, ...]) -> None:
    for document in (*docket, *poor_docket):
        for text in texts(document):
            assert not SPILLED.search(text), f"{document.key}: {text}"


def test_a_job_with_almost_nothing_said_still_has_every_chapter(poor_docket: tuple[Document, ...]) -> None:
    for document in poor_docket:
        check(document)
        for chapter in document.chapters:
            assert chapter.blocks, f"{document.key}/{chapter.key}"
            assert any(not isinstance(block, Paragraph) or plain(block.of).strip() for block in chapter.blocks)


def test_what_is_missing_says_what_to_add(poor_docket: tuple[Document, ...]) -> None:
    manual = poor_docket[0]
    gaps = {"electrical", "lines", "passthroughs", "parts"}
    for chapter in manual.chapters:
        text = "\n".join(texts(chapter))
        if chapter.key in gaps:
            assert re.search(r"[Nn]ot said in the job: ?\S|[Nn]ot said in the job .*:|Not applicable, because \S", text), chapter.key


def test_no_cell_is_blank(docket: tuple[Document, ...], poor_docket: tuple[Document, ...]) -> None:
    for document in (*docket, *poor_docket):
        for block in blocks(document):
            if isinstance(block, Table):
                empty = [row for row in block.rows for cell in row if not plain(cell).strip()]
                assert not empty, f"{document.key}: {block.caption}"
                assert block.rows, f"{document.key}: {block.caption}"


def test_names_of_a_job_print_as_they_were_typed(tmp_path: Path) -> None:
    manual = words(docket_of(assessed(tmp_path, BARE))[0])
    assert "rack | *one*" in manual
    assert "a rack, {{ 7 }} <b>" in manual


# --- findings -------------------------------------------------------------------------------------------------


def findings_of(document: Document) -> list[str]:
    return [of.key for of in sheets_of(document)]


def sheets_of(document: Document) -> list[Finding]:
    """The findings whose worksheets a document prints, each on its own or beside others."""
    printed = [(block.of,) if isinstance(block, Working) else block.of for block in blocks(document) if isinstance(block, Working | Tabled)]
    return [of for together in printed for of in together if isinstance(of, Finding)]


def test_the_calculation_record_holds_each_finding_once(
    docket: tuple[Document, ...], demonstration: Assessment, poor: Assessment, poor_docket: tuple[Document, ...]
) -> None:
    for record, assessment in ((docket[3], demonstration), (poor_docket[3], poor)):
        assert Counter(findings_of(record)) == Counter(finding.key for finding in assessment.findings)


def test_page_one_counts_what_was_found(docket: tuple[Document, ...], demonstration: Assessment) -> None:
    counted = next(block for block in docket[3].chapters[0].blocks if isinstance(block, Table))
    assert {plain(row[0]): int(plain(row[1])) for row in counted.rows} == demonstration.counts


def test_page_one_lists_all_that_is_open(poor: Assessment, poor_docket: tuple[Document, ...]) -> None:
    first = poor_docket[3].chapters[0]
    listed = next(block for block in first.blocks if isinstance(block, Table) and block.caption == "Open findings")
    assert [plain(row[3]) for row in listed.rows] == [" ".join(finding.sentence.split()) for finding in poor.open]


def test_page_one_lists_every_stated_value_that_a_finding_rests_on(poor: Assessment, poor_docket: tuple[Document, ...]) -> None:
    first = "\n".join(texts(poor_docket[3].chapters[0]))
    stated = {where for finding in poor.findings for where, evidence in finding.evidence if evidence == STATED}
    assert stated
    for where in stated:
        origin, _, path = where.partition(", ")
        assert origin in first
        assert path in first


def test_the_first_page_of_the_docket_says_where_the_papers_stand(docket: tuple[Document, ...], demonstration: Assessment) -> None:
    assert [document.key for document in docket if document.front] == ["manual"]
    first = "\n".join(texts(docket[0].front))
    assert (f"act: {len(demonstration.open)}" if demonstration.open else "No finding is open") in first
    stated = {where for finding in demonstration.findings for where, evidence in finding.evidence if evidence == STATED}
    assert stated
    for where in stated:
        origin, _, path = where.partition(", ")
        assert origin in first
        assert path in first
    for row in {row for finding in demonstration.findings for row in finding.to_confirm}:
        assert row in first
    assert "overrides" in first
    for finding in demonstration.findings:
        if finding.decision is not None:
            assert finding.decision.name in first


def test_the_first_page_says_what_the_job_declares_not_to_apply(
    poor: Assessment, poor_docket: tuple[Document, ...], demonstration: Assessment, docket: tuple[Document, ...]
) -> None:
    """A part that a job declines asks for nothing: its reason stands where the papers are read first."""
    for assessment, papers in ((poor, poor_docket), (demonstration, docket)):
        first = "\n".join(texts(papers[0].front))
        reasons = {f.reason for f in assessment.findings if f.verdict is Verdict.NOT_APPLICABLE and f.subject == "the whole fit"}
        assert [reason for reason in reasons if reason not in first] == []


def test_the_first_page_shows_overrides_old_and_new(tmp_path: Path) -> None:
    shutil.copytree(folder("jobs"), tmp_path / "jobs")
    path = tmp_path / "jobs" / "halden_4_cooler" / "job.yaml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("    from: equipment/cabin_cooler\n", "    from: equipment/cabin_cooler\n    mass dry: 31 lb\n"), encoding="utf-8")
    changed = assess(load(path))
    first = "\n".join(texts(docket_of(changed)[0].front))
    for override in changed.job.overrides:
        for part in (named(override.path), override.old, override.new, override.place):
            assert part in first


def test_what_the_release_does_not_assess_is_one_list(docket: tuple[Document, ...]) -> None:
    chapter = next(chapter for chapter in docket[3].chapters if chapter.key == "left_out")
    said = " ".join("\n".join(texts(chapter)).split())
    for criterion in all_criteria():
        left = criterion.documentation["Leaves out"]
        assert left[:1].upper() + left[1:] in said, criterion.id


def test_lines_of_the_checklist_have_numbers_of_their_own(docket: tuple[Document, ...]) -> None:
    from liftout.documents.document import item_numbers, numbered

    found = [
        number
        for position, chapter in enumerate(docket[2].chapters, 1)
        for block in numbered(position, chapter.blocks)
        if isinstance(block.block, Checklist)
        for number in item_numbers(block.number, block.block.rows)
    ]
    assert len(found) == len(set(found)) == len(rows_of(docket[2]))
    assert all(re.fullmatch(r"\d+-\d+", number) for number in found)


def test_page_one_lists_stated_and_overridden_values(tmp_path: Path) -> None:
    shutil.copytree(folder("jobs"), tmp_path / "jobs")
    path = tmp_path / "jobs" / "halden_4_cooler" / "job.yaml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("    from: equipment/cabin_cooler\n", "    from: equipment/cabin_cooler\n    mass dry: 31 lb\n"), encoding="utf-8")
    changed = assess(load(path))
    assert [override.new for override in changed.job.overrides] == ["31 lb"]
    first = "\n".join(texts(docket_of(changed)[3].chapters[0]))
    override = changed.job.overrides[0]
    for part in (named(override.path), override.old, override.new, override.place):
        assert part in first
    stated = [fact for fact in everything_said(changed.facts.place) if fact.stated]
    assert ("equipment", "cabin unit", "mass dry") in [fact.path for fact in stated]
    for fact in stated:
        assert named(fact.path) in first


def test_the_same_findings_stand_in_site_and_paper(tmp_path_factory: pytest.TempPathFactory) -> None:
    poor = assessed(tmp_path_factory.mktemp("counted"), BARE + FULLER)
    record = docket_of(poor)[3]
    place = tmp_path_factory.mktemp("site")
    site.build((record,), place / "site", title="counted")
    pages = "\n".join(path.read_text(encoding="utf-8") for path in (place / "site" / record.key).glob("findings-*.html"))
    printed = "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(paper.write(record))).pages)
    # Of worksheets side by side, value, limit and margin stand in cells of their own.
    tabled = {id(of) for block in blocks(record) if isinstance(block, Tabled) for of in block.of if isinstance(of, Finding) and of.value_text}
    said = [finding.sentence for finding in poor.findings if id(finding) not in tabled]
    assert len(said) > 10
    packed, shown = re.sub(r"\s+", "", printed), re.sub(r"\s+", "", html.unescape(re.sub(r"<[^>]*>", "", pages)))
    # A page break may part a conclusion, and the words of one may stand in another: so each is there at least as often as it was found.
    for text in set(said):
        compact = re.sub(r"[\s\u200b]+", "", text)
        assert shown.count(compact) >= said.count(text), text
    head = re.compile("|".join(sorted((re.escape(str(verdict).replace(" ", "").upper()) for verdict in Verdict), key=len, reverse=True)))
    assert len(head.findall(packed)) >= len(poor.findings)
    for finding in poor.findings:
        if id(finding) in tabled:
            cells = (finding.value_text, f"{finding.relation} {finding.limit_text}", finding.margin.text if finding.margin else "")
            assert re.sub(r"\s+", "", "".join(cells)) in shown, finding.key
            assert all(word in packed for cell in cells for word in cell.split()), finding.key
    for requires in {finding.requires for finding in poor.findings if finding.requires}:
        compact = re.sub(r"\s+", "", requires)
        assert f"Requires{compact}" in packed
        assert f"Requires{compact}" in shown


# --- equipment that is no cooler ------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def without_liquid() -> tuple[Assessment, tuple[Document, ...]]:
    """The demonstration job with a camera and an oxygen rack."""
    assessment = assess(load(Path(folder("jobs")) / "halden_4_survey" / "job.yaml"))
    return assessment, docket_of(assessment)


def test_papers_of_a_job_without_liquid_speak_of_no_coolant(without_liquid: tuple[Assessment, tuple[Document, ...]]) -> None:
    assessment, made = without_liquid
    assert not assessment.facts.loops
    for document in (made[0], made[1], made[2], made[4]):
        drawn = [block.svg for block in blocks(document) if isinstance(block, Figure)]
        for text in (*texts(document), *drawn):
            if text.startswith("wiring / "):  # a key of the job, named where the job declines it
                continue
            assert not re.search(r"coolant|glycol|[Ll]oops filled|cooling unit|a removable loop", text), f"{document.key}: {text[:200]}"
        # The job's own reason for having no lines may name them; a legend may not.
        assert not any("liquid line" in svg for svg in drawn)


def test_what_has_no_box_and_what_always_stays_are_told_as_such(without_liquid: tuple[Assessment, tuple[Document, ...]]) -> None:
    assessment, made = without_liquid
    boxless = [item for item in assessment.facts.items if item.without_box is not None]
    assert boxless
    parts = words_of(chapter(made[0], "parts"))
    for item in boxless:
        assert f"not applicable, because {item.without_box.value}" in parts  # type: ignore[union-attr]
    listed = words_of(chapter(made[1], "equipment_list"))
    inside = {item.name: item for room in assessment.facts.rooms for item in room.items}
    assert {item.removable for item in inside.values()} == {True, False}
    for name, item in inside.items():
        assert (f"When a compartment holds the {name}, load no more there" in listed) == item.removable


# --- the manual -----------------------------------------------------------------------------------------------


def test_the_job_s_own_steps_are_printed_whole_and_in_order(docket: tuple[Document, ...], demonstration: Assessment) -> None:
    removal = next(chapter for chapter in docket[0].chapters if chapter.key == "removal")
    printed = [plain(item[0].of) for block in removal.blocks if isinstance(block, Steps) for item in block.items]  # type: ignore[union-attr]
    for out in demonstration.facts.removals:
        first, *steps = [step.value for step in out.steps]
        assert first.endswith("breaker to off.")
        assert first not in printed  # breakers are left and marked once, before the first step
        at = printed.index(steps[0])
        bare = [re.sub(r" \(C\d+(, C\d+)*\)", "", step) for step in printed]
        assert bare[at : at + len(steps)] == steps


UNDONE = [
    "Place the cabin unit (1), as figure 11-1 shows.",
    "Fasten the four straps.",
    "Take the threaded blank SK-231 off the belly drain (C4, C9).",
    "Connect the condensate tube.",
    "Take the cover SK-234 off the socket (C3).",
    "Connect the two-pole socket.",
    "Take the caps SK-233 off both coupling halves that stay (C1, C2).",
    "Connect the two coolant couplings at the cabin unit.",
]
"""The removal of the cabin unit, undone by hand."""


def test_refitting_undoes_the_removal_from_its_end(docket: tuple[Document, ...]) -> None:
    removal = next(chapter for chapter in docket[0].chapters if chapter.key == "removal")
    printed = [plain(item[0].of) for block in removal.blocks if isinstance(block, Steps) for item in block.items]  # type: ignore[union-attr]
    at = printed.index(UNDONE[0])
    assert printed[at : at + len(UNDONE)] == UNDONE


def test_every_item_run_line_and_opening_is_in_the_manual(docket: tuple[Document, ...], demonstration: Assessment) -> None:
    manual, facts = words(docket[0]), demonstration.facts
    names = [*(item.name for item in facts.items), *(run.name for run in facts.runs), *(opening.name for opening in facts.openings)]
    assert names
    assert all(name in manual for name in names)
    assert sum(isinstance(block, Figure) for block in blocks(docket[0])) >= 1 + len(facts.runs)


HEADINGS = [
    "Introduction",
    "Description",
    "Control and operation",
    "Servicing",
    "Maintenance instructions and intervals",
    "Troubleshooting",
    "Removal and replacement",
    "Diagrams",
    "Special inspection requirements",
    "Application of protective treatments",
    "Data on structural fasteners",
    "Special tools",
    "Commuter-category items",
    "Recommended overhaul periods",
    "Airworthiness limitations",
    "Revision",
    "Assistance",
    "Implementation and record keeping",
]
"""Of a published field-approval checklist for instructions for continued airworthiness, in its order."""


def test_instructions_for_continued_airworthiness_have_every_heading_with_a_text(
    docket: tuple[Document, ...], poor_docket: tuple[Document, ...]
) -> None:
    from liftout.documents.blocks import Heading

    for manual in (docket[0], poor_docket[0]):
        chapter = next(chapter for chapter in manual.chapters if chapter.key == "continued")
        assert [block.text for block in chapter.blocks if isinstance(block, Heading)] == HEADINGS
        for block, after in zip(chapter.blocks, (*chapter.blocks[1:], None), strict=True):
            assert not (isinstance(block, Heading) and (after is None or isinstance(after, Heading))), block


def test_acceptance_values_are_the_limits_of_the_findings(docket: tuple[Document, ...], demonstration: Assessment) -> None:
    tests = next(chapter for chapter in docket[0].chapters if chapter.key == "tests")
    accepted = {plain(row[0]): plain(row[3]) for block in tests.blocks if isinstance(block, Table) for row in block.rows}
    drops = [finding for finding in demonstration.findings if finding.criterion == "electrical.voltage_drop"]
    assert drops
    for finding in drops:
        assert accepted[f"Voltage drop of circuit {finding.subject}"] == f"{finding.relation} {finding.limit_text}"


# --- the amendment --------------------------------------------------------------------------------------------


def test_each_state_has_the_empty_weight_that_was_worked(docket: tuple[Document, ...], demonstration: Assessment) -> None:
    chapter = next(chapter for chapter in docket[1].chapters if chapter.key == "empty_weight")
    tables = [block for block in chapter.blocks if isinstance(block, Table) and block.caption != "Key to the chart"]
    rows = {plain(row[0]): [plain(cell) for cell in row] for block in tables for row in block.rows}
    assert set(rows) == {state.name for state in demonstration.facts.states}
    for state in demonstration.facts.states:
        steps = {step.symbol: step.result for step in amended_empty_weight(state, demonstration.facts).steps}
        for cell, symbol in zip(rows[state.name][1:4], ("W", "x_cg", "M"), strict=True):
            assert cell == f"{steps[symbol].number}\u00a0{steps[symbol].unit}"


def test_adverse_loadings_are_listed_for_every_state_and_side(docket: tuple[Document, ...], demonstration: Assessment) -> None:
    chapter = next(chapter for chapter in docket[1].chapters if chapter.key == "adverse")
    found = [finding for finding in demonstration.findings if finding.criterion == "balance.adverse_loading"]
    printed = "\n".join(texts(chapter.blocks))
    assert found
    for finding in found:
        assert finding.sentence in printed
        for step in finding.steps:
            if step.symbol in ("x_cg", "x_limit"):
                assert step.result.number in printed


# --- the checklist --------------------------------------------------------------------------------------------


def rows_of(document: Document) -> list[Any]:
    return [row for block in blocks(document) if isinstance(block, Checklist) for row in block.rows]


def test_each_value_that_a_finding_rests_on_is_measured_or_read_again(docket: tuple[Document, ...], demonstration: Assessment) -> None:
    asked = "\n".join(f"{row.item} {row.where} {row.reference}" for row in rows_of(docket[2]))
    again = [fact for fact in rested_on(Matter(demonstration, digests(demonstration))) if ground_of(fact) in ("measured", "nameplate", "stated")]
    assert len(again) > 20
    for fact in again:
        assert f"{named(fact.path[:-1])} {fact.origin}; {fact.evidence}" in asked, fact


def test_every_document_that_a_finding_rests_on_is_asked_for(docket: tuple[Document, ...], demonstration: Assessment) -> None:
    asked = "\n".join(row.item for row in rows_of(docket[2]))
    cited = {
        fact.evidence.partition(", page")[0] for fact in rested_on(Matter(demonstration, digests(demonstration))) if ground_of(fact) == "document"
    }
    assert cited
    assert all(f"Document {name}" in asked for name in cited)


def test_no_line_is_ticked_or_filled_in_and_each_says_what_is_accepted(docket: tuple[Document, ...], poor_docket: tuple[Document, ...]) -> None:
    for document in (docket[2], poor_docket[2]):
        for row in rows_of(document):
            assert row.acceptance.strip()
            assert not re.search(r"\b(found|measured|passed|ok|done)\b", row.acceptance, re.IGNORECASE), row.acceptance


def test_hold_points_and_second_persons(docket: tuple[Document, ...], demonstration: Assessment) -> None:
    rows = rows_of(docket[2])
    closing = next(chapter for chapter in docket[2].chapters if chapter.key == "closing")
    assert all(row.hold for block in closing.blocks if isinstance(block, Checklist) for row in block.rows)
    beside_controls = [row for row in rows if "flight controls" in row.item.lower() or "movable controls" in row.item]
    assert len(beside_controls) >= 2 * len(demonstration.facts.removals)
    assert all(row.second_person for row in beside_controls)


def test_published_limits_carry_their_source_and_others_a_blank(docket: tuple[Document, ...]) -> None:
    for row in rows_of(docket[2]):
        if re.match(r"(Bond|Circuit .*: distance|Line .*: (supports|slack|distance))", row.item):
            assert BLANK in row.acceptance or "43.13" in row.reference, row.item


def test_each_published_row_behind_an_acceptance_value_is_listed_with_its_edition(docket: tuple[Document, ...]) -> None:
    listed = "\n".join(texts(next(chapter for chapter in docket[3].chapters if chapter.key == "publications")))
    printed = "\n".join(row.reference for row in rows_of(docket[2])) + words(docket[0])
    names = ("bonding_limits", "clearances", "line_supports", "line_conditions", "compass_limits", "cabin_air_limits")
    cited = {row.citation for name in names for row in table(name) if row.citation in printed}
    assert len(cited) > 5
    assert all(citation in listed for citation in cited)


def test_signatures_are_left_blank(docket: tuple[Document, ...]) -> None:
    signed = [block for document in docket for block in (*blocks(document), *document.signatures) if isinstance(block, Signature)]
    assert len(signed) > 5
    for block in signed:
        assert all(line in ("Name", "Date", "Signature") or line.startswith("Licence") for line in block.lines)
    assert LINE in words(docket[0])
