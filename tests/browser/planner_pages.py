"""Loading planners of jobs as files, and a browser to open them with.

The jobs are the demonstration jobs, and one with all that the demonstration jobs lack: two tanks emptied in an order, one of
them with an arm that depends on its contents, limits straight in moment, a second category with stations that stay empty, an
item that takes a seat, a station loaded instead of another, and limits that are missing. The last one is flown on wheels and
on floats, with a locker and water in the floats, oil out of one empty weight, and three tanks that no order is given for.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from tests.documents import sample
from tests.job.demonstration import changed

from liftout.assessment import Assessment, assess
from liftout.documents import site, templating
from liftout.documents.chapters.matter import Matter
from liftout.documents.chapters.planner import planner
from liftout.documents.docket import standing
from liftout.documents.document import Chapter
from liftout.documents.planner import Planner
from liftout.identity.digests import Digests, job_digest
from liftout.identity.resolved import as_carried
from liftout.job import load
from liftout.resources import folder
from liftout.worked.balance.loading_plan import LoadingPlan, loading_plan

DEMONSTRATIONS = ("halden_4_cooler", "halden_4_survey", "orrin_6p_cooler", "tessel_2_cooler")
RICH = "rich"
FLOATS = "floats"
JOBS = (*DEMONSTRATIONS, RICH, FLOATS)

DOCUMENT = "document: {number: D-1}"
CHANGES = {
    "aircraft / tanks / tail tank": f"{{arm: 120 in, datum: firewall, usable: 20 US gal, density: 6.0 lb/US gal, {DOCUMENT}, "
    "contents: [{volume: 5 US gal, arm: 112 in}, {volume: 12 US gal, arm: 116 in}, {volume: 20 US gal, arm: 120 in}]}",
    "aircraft / fuel order": "[tail tank, wing tanks]",
    "aircraft / limits / straight in": "moment",
    "aircraft / limits / maximum zero fuel": "{weight: 2900 lb}",
    "aircraft / limits / maximum ramp": None,
    "aircraft / stations / rear shelf": f"{{holds: baggage, arm: 105 in, datum: firewall, instead of: [baggage], {DOCUMENT}}}",
    "aircraft / further limits": f"{{utility: {{{DOCUMENT}, maximum takeoff: 2700 lb, maximum landing: 2700 lb, maximum ramp: {{none: no}}, "
    "maximum zero fuel: {none: no}, lateral: {none: no}, datum: firewall, empty: [rear passengers, baggage], "
    "forward: [{weight: 2250 lb, arm: 33.0 in}, {weight: 2700 lb, arm: 35.5 in}], aft: [{weight: 2250 lb, arm: 44.0 in}, {weight: 2700 lb, arm: 43.0 in}]}}",
    "equipment / cabin unit / takes seats": "{station: rear passengers, seats: '1'}",
}
_CORNERS = "forward: [{weight: 2250 lb, arm: 33.0 in}, {weight: 3100 lb, arm: 39.5 in}], aft: [{weight: 2250 lb, arm: 47.5 in}, {weight: 3100 lb, arm: 46 in}]"
_LIMITS = (
    f"{{{DOCUMENT}, maximum takeoff: 3100 lb, maximum landing: 3000 lb, maximum ramp: {{weight: 3110 lb}}, "
    f"maximum zero fuel: {{none: no}}, lateral: {{none: no}}, datum: firewall, {_CORNERS}}}"
)
ON_FLOATS = {
    "aircraft / weight record": None,
    "aircraft / limits": None,
    "aircraft / undercarriages": f"{{wheels: {{weight record: [{{title: weighing, date: 2023-05-16, {DOCUMENT}, weight: 2014.6 lb, "
    f"moment: 76489.8 lb-in, datum: firewall, oil: in}}], limits: {_LIMITS}}}, "
    f"floats: {{weight record: [{{title: weighing on floats, date: 2024-06-01, {DOCUMENT}, weight: 2190.0 lb, moment: 84800 lb-in, "
    f"datum: firewall, oil: drained}}], limits: {_LIMITS}}}}}",
    "aircraft / oil": f"{{weight: 22 lb, arm: -18 in, datum: firewall, {DOCUMENT}}}",
    "aircraft / stations / float locker": f"{{holds: baggage, arm: 30 in, datum: firewall, maximum: 60 lb, undercarriages: [floats], {DOCUMENT}}}",
    "aircraft / stations / water in the floats": f"{{holds: water, arm: 50 in, datum: firewall, maximum: 40 lb, undercarriages: [floats], {DOCUMENT}}}",
    "aircraft / tanks / tail tank": CHANGES["aircraft / tanks / tail tank"],
    "aircraft / tanks / nose tank": f"{{arm: -5 in, datum: firewall, usable: 12 US gal, density: 6.0 lb/US gal, {DOCUMENT}}}",
}
ODD_NAME = "</script><script>window.broken = 1</script>"


@cache
def assessed(name: str) -> Assessment:
    """A demonstration job, or the rich one, assessed."""
    if name in (RICH, FLOATS):
        return assess(changed(CHANGES if name == RICH else ON_FLOATS), remedies=False)
    return assess(as_carried(load(Path(folder("jobs")) / name / "job.yaml")), remedies=False)


@cache
def planned(name: str) -> LoadingPlan:
    """Its plan."""
    found = loading_plan(assessed(name).facts)
    assert isinstance(found, LoadingPlan), found
    return found


def matter_of(assessment: Assessment) -> Matter:
    """What papers are made from; only the digest of the job matters here."""
    return Matter(assessment, Digests(job_digest(assessment.job), "1" * 64, "2" * 64, "3" * 64))


@cache
def planner_of(name: str) -> Planner:
    """Its planner."""
    return matter_of(assessed(name)).planner


def written(name: str, place: Path) -> Path:
    """The planner of a job as one file in a folder."""
    file = planner_of(name).file
    assert file is not None
    path = place / file.name
    path.write_bytes(file.content)
    return path


def site_of(name: str, place: Path) -> Path:
    """The planner's page on a site that holds the amendment and nothing else."""
    matter = matter_of(assessed(name))
    chapter = Chapter("planner", "Loading planner", templating.chapter("amendment/planner.md.j2", **planner(matter)), matter.planner.part)
    site.build((sample.document(key="amendment", chapters=(chapter,), standing=standing(matter)),), place / "site", title="Docket")
    return place / "site" / "amendment" / "planner.html"


@contextmanager
def browser() -> Iterator[Any]:
    """A browser without a network; where there is none the test is skipped."""
    playwright = pytest.importorskip("playwright.sync_api")
    program = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if program is None:
        pytest.skip("no browser on this machine")
    with playwright.sync_playwright() as running:
        opened = running.chromium.launch(executable_path=program, args=["--no-sandbox", "--disable-quic", "--disable-background-networking"])
        yield opened
        opened.close()


def page_of(opened: Any, path: Path, **how: Any) -> Any:
    """The page, opened without a network; faults of the script end the test."""
    context = opened.new_context(offline=True, **{"viewport": {"width": 1280, "height": 900}, **how})
    return visit(context.new_page(), path)


def visit(page: Any, path: Path) -> Any:
    """A page that remembers its faults and everything that it asks for."""
    page.faults = []
    page.asked = []
    page.on("pageerror", lambda error: page.faults.append(str(error)))
    page.on("console", lambda message: page.faults.append(message.text) if message.type == "error" else None)
    page.on("request", lambda request: page.asked.append(request.url))
    page.goto(path.as_uri())
    return page
