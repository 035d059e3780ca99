"""What the papers of a docket are written from."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from liftout.assessment import Assessment
from liftout.documents.blocks import Block
from liftout.documents.both_units import First
from liftout.documents.document import Annex, Paper
from liftout.facts import Facts
from liftout.findings import Finding
from liftout.identity.digests import Digests
from liftout.job.whole import Papers

if TYPE_CHECKING:
    from liftout.documents.checklist import Line, LiveChecklist
    from liftout.documents.planner import Planner
    from liftout.documents.wording import Wording

Values = dict[str, Any]
"""What a chapter gives to its template."""


@dataclass(frozen=True)
class Matter:
    """An assessed job and its digests."""

    assessment: Assessment
    digests: Digests
    annexes: tuple[Annex, ...] = ()
    as_shipped: bool = False
    """Whether chapters that the shop words itself are left as they are shipped."""

    @property
    def facts(self) -> Facts:
        """The facts of the job."""
        return self.assessment.facts

    @property
    def papers(self) -> Papers:
        """Number, revision and date of the docket."""
        return self.assessment.job.document.papers

    @property
    def shop(self) -> str:
        """Who makes the papers."""
        return self.assessment.job.document.shop_name

    @property
    def sheet(self) -> Paper:
        """The sheet that the shop prints on."""
        shop = self.assessment.job.document.shop
        return "us-letter" if shop and shop.paper == "US Letter" else "a4"

    @property
    def first_units(self) -> First | None:
        """The system of units that the shop wants first, where it wants both."""
        shop = self.assessment.job.document.shop
        return {"SI first": "SI", "imperial first": "imperial"}.get(shop.units or "") if shop else None  # type: ignore[return-value]

    @property
    def shop_templates(self) -> dict[str, str]:
        """Chapters that the shop has in its own words: their templates by name."""
        shop = self.assessment.job.document.shop
        return dict(shop.templates) if shop else {}

    @cached_property
    def own_chapters(self) -> dict[tuple[str, str], tuple[Block, ...]]:
        """The blocks of these chapters, by document and key; all of them are written at once."""
        from liftout.documents.docket import own_chapters

        return {} if self.as_shipped else own_chapters(self)

    @property
    def language(self) -> str:
        """The language of the papers, as the shop's file says it."""
        shop = self.assessment.job.document.shop
        return (shop and shop.language) or "en"

    @cached_property
    def wording(self) -> Wording:
        """The language with the words of this job, its findings, placards and steps among them.

        Findings are the calculation record's, which is in English; placards stand as they are drawn; a step undone is in the words of the step.
        """
        from liftout.documents.chapters.count import panels
        from liftout.documents.chapters.placards import wordings
        from liftout.documents.chapters.removal import words_of_steps
        from liftout.documents.chapters.said import results
        from liftout.documents.power_placards import unserviceable
        from liftout.documents.wording import Wording, own_words
        from liftout.facts.electrical import PHASES

        phases = tuple(f", {phase}" for phase in PHASES)
        told = {
            word.lower() for row in results(self.assessment.findings) for word in row if not word.startswith("circuit ") and not word.endswith(phases)
        }
        marks = {wording.lower() for _, wording, _ in (*wordings(self.facts), *unserviceable(self.facts))}
        steps = {step.lower() for step in (*words_of_steps(self.facts), *panels(self.facts))}
        names = {one.name for bracket in self.facts.brackets for one in bracket.fasteners}
        names |= {segment.name for loop in self.facts.loops for segment in loop.segments} | {volume.name for volume in self.facts.keep_clear.volumes}
        return Wording(self.language, own_words(self.assessment.job) | told | marks | steps, frozenset(names))

    def worded(self, blocks: tuple[Block, ...]) -> tuple[Block, ...]:
        """Blocks with fixed words in the language of the papers; other words of the shop as they are."""
        from liftout.documents.wording import ENGLISH, blocks_in

        return blocks if self.language == ENGLISH else blocks_in(self.wording.of_the_shop, blocks)

    @property
    def demonstration(self) -> bool:
        """Whether the job is an invented example."""
        return self.papers.demonstration is not None

    @cached_property
    def planner(self) -> Planner:
        """The loading page, which the amendment names and the docket holds."""
        from liftout.documents.planner import planner

        return planner(self)

    @cached_property
    def live_checklist(self) -> LiveChecklist:
        """The checklist on a screen, which the checklist names and the docket holds."""
        from liftout.documents.checklist import live_checklist
        from liftout.documents.docket import checklist_chapters

        return live_checklist(self, checklist_chapters(self))

    @cached_property
    def checklist_lines(self) -> tuple[Line, ...]:
        """Every line of the checklist by its number, which other papers name."""
        from liftout.documents.checklist import lines_of
        from liftout.documents.docket import checklist_chapters

        return tuple(line for position, chapter in enumerate(checklist_chapters(self), 1) for line in lines_of(position, chapter))

    def findings(self, criteria: Iterable[str]) -> tuple[Finding, ...]:
        """Findings of these criteria, or of these families of criteria, in the order of the assessment."""
        wanted = set(criteria)
        return tuple(finding for finding in self.assessment.findings if finding.criterion in wanted or finding.criterion.partition(".")[0] in wanted)

    def finding(self, criterion: str, subject: str, state: str = "") -> Finding | None:
        """The one finding of a criterion on a subject in a state."""
        asked = (criterion, subject, state)
        return next((finding for finding in self.assessment.findings if (finding.criterion, finding.subject, finding.state) == asked), None)
