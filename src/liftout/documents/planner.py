"""The page on which an owner plans a loading: its data, its place on the site, and the same page as one file for a telephone.

The script of the page computes what the engine computes (`physics.planned_loading`). The data brings loadings with what
the engine found for them; the page works them out again when it opens and shuts itself where one comes out otherwise.
Nothing is computed here: the plan comes from `worked.balance.loading_plan`, the loadings and their outcomes from physics.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from liftout.documents import templating
from liftout.documents.chapters.said import said
from liftout.documents.document import Attachment
from liftout.documents.html import blocks_html
from liftout.documents.one_file import identity, in_language, in_words, on_the_site, one_file, with_data, words_of
from liftout.facts import Amount, Fact, Missing
from liftout.facts.limits import Limits
from liftout.facts.weight_record import Sheet
from liftout.physics.envelope import Limit
from liftout.physics.planned_loading import Loading, outcome
from liftout.physics.sampled_loadings import sampled
from liftout.quantities import unit
from liftout.worked.balance.loading_plan import LoadingPlan, loading_plan

if TYPE_CHECKING:
    from liftout.documents.chapters.matter import Matter

LOADINGS_LEAST: Final = 240
"""Loadings that come with the page; more where there are more states, so that each has one."""
START: Final = 20_241
"""Where their sequence begins; any number does."""
UNITS: Final = {"weight": ("lb", "kg"), "length": ("in", "mm"), "volume": ("US gal", "L")}
"""Units that the page offers; the first is used where the job writes none of them."""
DIGITS: Final = 12
"""Significant digits of what the engine found: a thousand times finer than what counts as the same."""
SCRIPTS: Final = ("planner_loading.js", "planner_chart.js", "planner.js")
STYLES: Final = ("planner.css",)


@dataclass(frozen=True, slots=True)
class Planner:
    """The loading page of a docket.

    Attributes:
        part: what stands on its page of the site, below the chapter's words.
        file: the whole page as one file; None where no loading can be planned.
        loadings: how many loadings of the engine came with it.
        missing: what the job lacks for any loading.
    """

    part: str
    file: Attachment | None
    loadings: int
    missing: tuple[Missing, ...]

    @property
    def digest(self) -> str:
        """SHA-256 of the file."""
        return hashlib.sha256(self.file.content).hexdigest() if self.file else ""


def planner(matter: Matter) -> Planner:
    """The loading page of a docket."""
    found = loading_plan(matter.facts)
    if not isinstance(found, LoadingPlan):
        return Planner("", None, 0, found)
    loadings = _loadings(found)
    words = words_of(matter.language, "planner", SHARED_WORDS)
    words |= {one.name: in_language(one.name, matter) for one in matter.facts.states if words and one.name != "in"}  # that is inches, too
    data = {**_identity(matter), **_planned(found, matter), "loadings": loadings, **({"words": words} if words else {})}
    box = with_data("planner", _box(matter), data)
    cautions = blocks_html(in_words(templating.chapter("shared/planner_cautions.md.j2"), matter), matter.language)
    content = one_file(matter, "Loading planner", "planner", f"{cautions}\n{box}", STYLES, SCRIPTS)
    file = Attachment(f"{matter.papers.number}-planner.html", "text/html", "the loading planner as one file", "supplement", content)
    return Planner(on_the_site(box, STYLES, SCRIPTS), file, len(loadings), ())


# --- data ---------------------------------------------------------------------------------------------------------


def _identity(matter: Matter) -> dict[str, Any]:
    """Which aircraft, which record, which docket."""
    plane, told = matter.facts.aircraft, identity(matter)
    return {
        **told,
        "basis": [said(part) for part in (plane.basis.regulation, plane.basis.edition, plane.basis.category)],
        "datum": plane.datum,
        "standing": in_language(told["standing"], matter),
        "records": [
            {"on": one.name, "title": one.record.title, "date": one.record.date, "basis": _basis(one.record)} for one in plane.undercarriages
        ],
    }


def _basis(sheet: Sheet) -> str:
    """What a sheet of the weight record rests on."""
    if sheet.weighing:
        return "weighing"
    return f"computed from {sheet.before.title}, {sheet.before.date}" if sheet.before else "figures of the sheet alone"


def _planned(found: LoadingPlan, matter: Matter) -> dict[str, Any]:
    """The plan with the words that go with it."""
    facts = matter.facts
    names = [one.name for one in facts.aircraft.undercarriages]
    stations = facts.aircraft.stations
    return {
        "plan": _plain(found.plan),
        "holds": [station.holds for station in stations],
        "maxima": [_known(station.maximum) for station in stations],
        "states": [
            {
                "on": names.index(state.undercarriage),
                "said": in_language(state.name, matter),
                "carried": _plain(carried),
                "takers": [[item.name for item, _ in state.seats_taken(station.name)] for station in stations],
            }
            for state, carried in zip(found.states, found.carried, strict=True)
        ],
        "limits": [
            {"on": on, "missing": _missing_weights(limits), "declined": _declined(limits), "lateral": _lateral(limits)} for on, limits in found.limits
        ],
        "lacking": [{"state": name, "needs": [need.what for need in needs]} for name, needs in found.lacking],
        "units": {kind: {symbol: float(unit(symbol).factor) for symbol in symbols} for kind, symbols in UNITS.items()},
        "written": {kind: _written(kind, matter) for kind in UNITS},
    }


def _missing_weights(limits: Limits) -> dict[str, str]:
    """What to do for a largest weight that the job leaves open, by the time that it holds for."""
    told = {"ramp": limits.maximum_ramp, "landing": limits.maximum_landing, "no fuel": limits.maximum_zero_fuel}
    return {when: most.what for when, most in told.items() if isinstance(most, Missing)}


def _declined(limits: Limits) -> list[str]:
    """Largest weights that the aircraft does not have, as the job says."""
    told = {"ramp": limits.maximum_ramp, "zero-fuel": limits.maximum_zero_fuel}
    return [name for name, most in told.items() if most is None]


def _lateral(limits: Limits) -> str:
    """What is said of lateral limits, which the page does not hold a loading against."""
    told = [side for side in (limits.left, limits.right) if side is not None]
    missing = [side.what for side in told if isinstance(side, Missing)]
    if missing:
        return f"limit missing: {missing[0]}"
    return "the aircraft has them; this page does not compute them" if told else ""


def _known(amount: Amount) -> float | None:
    return amount.value.si_float if isinstance(amount, Fact) else None


def _written(kind: str, matter: Matter) -> str:
    """The unit in which the job writes such amounts, where the page offers it."""
    plane = matter.facts.aircraft
    amounts = {"weight": plane.limits.maximum_takeoff, "length": plane.stations[0].arm, "volume": plane.tanks[0].usable}
    symbol = amounts[kind].value.unit.symbol if isinstance(amounts[kind], Fact) else ""  # type: ignore[union-attr]
    return symbol if symbol in UNITS[kind] else UNITS[kind][0]


def _loadings(found: LoadingPlan) -> list[dict[str, Any]]:
    """Loadings with what the engine finds for them."""
    count = max(LOADINGS_LEAST, len(found.plan.states))
    return [worked_out(found, loading) for loading in sampled(found.plan, count, START)]


def worked_out(found: LoadingPlan, loading: Loading) -> dict[str, Any]:
    """A loading as the page reads it, with what the engine finds for it."""
    result = outcome(found.plan, loading)
    return {
        "loading": _plain(tuple(loading)),
        "points": [[_rounded(point.weight_kg), _rounded(point.moment_kgm)] for point in result.points],
        "checks": [[_rounded(part) if isinstance(part, float) else part for part in check] for check in result.checks],
    }


def _rounded(value: float) -> float:
    return float(f"{value:.{DIGITS}g}")


def _plain(value: Any) -> Any:
    """Named tuples as objects, other tuples as lists: what JSON can say."""
    match value:
        case Limit():
            return {"points": _plain(value.points), "in_moment": value.in_moment}
        case tuple() if hasattr(value, "_asdict"):
            return {name: _plain(part) for name, part in value._asdict().items()}
        case tuple():
            return [_plain(part) for part in value]
        case _:
            return value


# --- pages --------------------------------------------------------------------------------------------------------


WAIT: Final = (
    "This planner runs in the browser. While this line stays, scripts are switched off or still being read: "
    "use the tables of the weight-and-balance amendment."
)
SHARED_WORDS: Final = (
    *(
        "Aircraft",
        "Weight record",
        "Docket",
        "Status",
        "Baggage",
        "Fuel",
        "Result",
        "Contents",
        "{what} {amount}",
        "Centre of gravity",
        "Limit",
        "Weight",
        "Arm",
        "State",
    ),
    *("Stations", "forward limit", "aft limit", "take-off", "landing", "within", "missing", "Stands"),
    *("maximum take-off weight", "maximum landing weight", "before any change", "none", "DEMONSTRATION - NOT FOR INSTALLATION, ALL DATA INVENTED"),
)
"""Words of the page that papers have too."""


def _box(matter: Matter) -> str:
    """Where the script builds the page."""
    return f'<div class="planner" id="planner"><p class="planner-wait">{in_language(WAIT, matter)}</p></div>'
