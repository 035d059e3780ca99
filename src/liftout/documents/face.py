"""The shop's own face, as papers and site show it: who made them, where to find that shop, its logo."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from liftout.job.shop import Shop

APPROVAL: Final = "Approval number of the shop, as the shop states it"
"""A number is printed; whether it covers the work is for the authority to say."""


@dataclass(frozen=True, slots=True)
class Face:
    """What the shop says of itself; empty where it says nothing.

    `logo` is the picture's bytes, PNG or SVG, held to what a logo may hold when the job was read.
    """

    address: tuple[str, ...] = ()
    reached_by: tuple[str, ...] = ()
    approval: str = ""
    logo: bytes = b""
    is_png: bool = False

    @property
    def contact(self) -> str:
        """How the shop is reached, in one line."""
        return ", ".join(self.reached_by)

    def lines(self, label: str = APPROVAL) -> tuple[str, ...]:
        """All that stands below the shop's name; `label` stands before the number of its approval."""
        approval = f"{label}: {self.approval}" if self.approval else ""
        return tuple(line for line in (", ".join(self.address), self.contact, approval) if line)

    @property
    def file(self) -> str:
        """The name of the logo beside pages; empty where there is none."""
        return ("logo.png" if self.is_png else "logo.svg") if self.logo else ""


NO_FACE: Final = Face()


def face(shop: Shop | None) -> Face:
    """The face of a shop, as its job tells it."""
    if shop is None:
        return NO_FACE
    reached_by = tuple(word for word in (shop.telephone, shop.mail) if word)
    logo = shop.logo.content_bytes if shop.logo else b""
    return Face(shop.address, reached_by, shop.approval_number or "", logo, shop.logo is not None and shop.logo.is_png)
