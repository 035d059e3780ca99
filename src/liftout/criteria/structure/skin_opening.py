"""Structure round an opening that is cut for the fit.

Requires: an opening cut for the fit lies in metal sheet, cuts no stringer and no frame, and a doubler restores what it takes.
Because: the sheet carried load where the hole is now; without a doubler its neighbours carry it, and a crack begins at the edge.
Method: what the job says of the sheet and of what the opening cuts; all but a doubled opening in plain metal sheet is referred.
  Corners of an opening have a radius, which is asked for: no least one is published, and a sharp corner begins a crack.
Leaves out: rivets and size of the doubler and the distance to stiffeners, which have criteria of their own, and openings in the pressure hull, which are always referred.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.doublers import CutOpening
from liftout.findings import Finding, Referral
from liftout.worksheet import Worksheet

PLAIN = ("metal", "sheet only")
"""Kind of structure and what an opening in it cuts, for which the published method is written."""


@criterion(each="cut_openings")
def skin_opening(cut: CutOpening, facts: Facts) -> Finding:
    sheet, opened = Worksheet(), cut.sheet
    sheet.needs(opened.kind, opened.cuts, opened.shape)
    assert isinstance(opened.kind, Fact)
    assert isinstance(opened.cuts, Fact)
    if opened.cornered:
        sheet.needs(opened.corner_radius)
    if opened.kind.value != PLAIN[0]:
        return sheet.refer(
            Referral(
                f"By which data is the {opened.kind.value} structure round the {cut.name} repaired, since no metal doubler and no rivet table hold for it?",
                f"{opened.kind.value} ({opened.kind.origin}, {opened.kind.evidence})",
                "the holder of the design data of this structure, or the licensed person with that data",
                "a scheme for this opening from that holder, with its document",
            ),
            case={"structure": opened.kind.value},
        )
    if opened.cuts.value != PLAIN[1]:
        return sheet.refer(
            Referral(
                f"By which data is the {opened.cuts.value} that the {cut.name} cuts made whole again?",
                f"cuts: {opened.cuts.value} ({opened.cuts.origin}, {opened.cuts.evidence})",
                "the licensed person who inspects the fit, with the maker's data of the structure",
                "a splice of that member from the maker's data, or the opening moved clear of it",
            ),
            case={"cuts": opened.cuts.value},
        )
    if cut.declined is not None:
        return sheet.refer(
            Referral(
                f"May the {cut.name} stay without a doubler?",
                f"the job gives as reason: {cut.declined.value} ({cut.declined.origin})",
                "the licensed person who inspects the fit, with the maker's data of the structure",
                "the maker's data that allow an opening of this size there without a doubler",
            )
        )
    if cut.doubler is None:
        sheet.needs(cut.place.missing("doubler"))
    # Without it the drill template cannot be drawn, and a pattern marked out from the wrong face is mirrored.
    sheet.needs(opened.faces)
    return sheet.met(f"plain metal sheet with a doubler round the {cut.name}")
