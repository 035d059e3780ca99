"""The one document model: a whole job."""

from typing import Literal, Self

from liftout.job.air import Air
from liftout.job.aircraft import Aircraft
from liftout.job.alterations import AlterationData
from liftout.job.cabin import Cabin
from liftout.job.changes import Changes
from liftout.job.condensate import Condensate
from liftout.job.electrical import Electrical
from liftout.job.equipment import Item
from liftout.job.lines import Lines
from liftout.job.loadings import Loadings
from liftout.job.passthrough import Displaced, Openings
from liftout.job.removal import Removal
from liftout.job.restraint import Restraint
from liftout.job.shop import Shop
from liftout.job.shop_tables import ShopRow
from liftout.job.structure import Structure
from liftout.job.upkeep import Upkeep
from liftout.job.values import Date, Mark, Part, Word, asked, checked, group, optional, several, told
from liftout.job.wiring import Wiring
from liftout.quantities import QuantityError

LANGUAGE = "1"


class Revision(Part):
    """A line of the record of revisions."""

    revision: Word = told("its letter or number")
    date: Date = told("its date")
    reason: Word = told("why it was made")


class Annex(Part):
    """A PDF file of the customer's own, collected with others behind the papers."""

    file: Word = told("its file, in the folder of the job")
    title: Word = told("what it is")


class Papers(Part):
    """What the docket is called and who makes it."""

    number: Mark = told("number of the docket")
    revision: Mark = told("its revision")
    date: Date = told("its date")
    shop: Word | None = optional("the shop that makes it, where no shop.yaml names it")
    customer: Word | None = optional("for whom")
    demonstration: Literal["yes"] | None = optional("yes marks an invented example")
    redacted: Literal["yes"] | None = optional("yes marks a copy in which personal data were replaced by marks; written by liftout issue --redact")
    supersedes: Mark | None = optional("the revision that this one takes the place of; what changed since is marked and listed")
    revisions: tuple[Revision, ...] = several("record of revisions, oldest first")
    annexes: tuple[Annex, ...] = several("PDF files of the customer's own, in the order of their numbers")


class Document(Part):
    """A job file."""

    liftout: Literal["1"] = told('version of the job language; the first key, "liftout: 1"')
    papers: Papers = told("number, revision and date of the docket")
    shop: Shop | None = optional("the shop's own face: stands in shop.yaml for all jobs; single keys may be said otherwise here")
    aircraft: Aircraft = told("the aircraft")
    electrical: Electrical | None = asked("describe the electrical system, or none with the reason", "electrical system before the change")
    changes: Changes | None = asked(
        "name the changes made to the aircraft at the same time, or none with the reason", "changes made to the aircraft at the same time as the fit"
    )
    equipment: dict[Word, Item] = group("items of equipment by name")
    loadings: Loadings | None = asked(
        "name the loadings that the aircraft is to be flown with, or none with the reason", "loadings that the aircraft is to be flown with"
    )
    wiring: Wiring | None = asked("describe the wiring, or none with the reason", "wiring of the fit")
    lines: Lines | None = asked("describe the liquid loops, or none with the reason", "liquid loops")
    cabin: Cabin | None = asked("say the free volume of the cabin", "the cabin itself")
    air: Air | None = asked(
        "describe the air that takes heat away and the bays that it warms, or none with the reason", "air that takes heat away, and bays"
    )
    structure: Structure | None = asked("describe what fastens each item to the aircraft, or none with the reason", "mountings of the fit")
    restraint: dict[Word, Restraint] = group("what holds each item, by the item's name")
    openings: Openings | None = asked("list the openings made for the fit, or none with the reason", "openings that stay in the aircraft")
    displaced: Displaced | None = asked(
        "list what the fit moves or takes out of the aircraft, or none with the reason", "what the fit moves or takes out of the aircraft"
    )
    condensate: Condensate | None = asked(
        "describe the condensate tube of each item that cools air, or none with the reason", "water that items make, and its way out"
    )
    shop_tables: dict[Word, dict[Word, ShopRow]] = group("rows of published tables that the shop confirmed or replaced, by table and row")
    removal: dict[Word, Removal] = group("how each removable item comes out, by the item's name")
    alterations: dict[Word, AlterationData] = group("the data of each line of the alteration, by the name of the item, circuit, loop or opening")
    upkeep: dict[Word, Upkeep] = group("upkeep of what wears, by kind of part: coolant, hose, seal, strap, connector, filter")

    @property
    def shop_name(self) -> str:
        """Who makes the papers."""
        return (self.shop and self.shop.name) or self.papers.shop or ""

    @checked
    def _one_shop(self) -> Self:
        named = {name for name in (self.papers.shop, self.shop and self.shop.name) if name}
        if not named:
            raise QuantityError("no shop is named.", "Write its name into shop.yaml beside the catalogue, or into papers / shop.")
        if len(named) > 1:
            raise QuantityError(f"papers / shop says {self.papers.shop}, and the shop's own file another name.", "Take papers / shop out.")
        return self
