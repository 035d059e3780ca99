"""The loading planner as a document: its data, its file, what the papers say of it, and that its engine is the engine."""

from __future__ import annotations

import hashlib
import json
import re
import subprocess
import sys
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from liftout.assessment import assess
from liftout.documents import templating
from liftout.documents.chapters.planner import planner as chapter
from liftout.documents.docket import PLANS
from liftout.documents.document import Chapter
from liftout.documents.html import block_html
from liftout.documents.planner import LOADINGS_LEAST
from liftout.facts import Fact
from liftout.job import load
from liftout.physics.planned_loading import outcome
from liftout.records.issued import issue
from liftout.resources import folder
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.loaded_weight import loaded_weight
from liftout.worked.balance.loading_plan import LoadingPlan, loading_plan
from liftout.worksheet import Result
from tests.browser.planner_pages import DEMONSTRATIONS, FLOATS, JOBS, ODD_NAME, RICH, assessed, matter_of, planned, planner_of
from tests.documents import sample
from tests.house.test_words import FORBIDDEN
from tests.job.demonstration import changed

ROOT = Path(__file__).parents[2]
ASSETS = Path(folder("site")) / "theme" / "assets"
SCRIPTS = sorted((*ASSETS.glob("planner*.js"), ASSETS / "checklist.js", ASSETS / "live_page.js"))


def data_of(text: str) -> dict[str, Any]:
    """The data of a page."""
    found = re.findall(r'<script type="application/json" id="planner-data" data-sum="[0-9a-f]{8}">(.*?)</script>', text)
    assert len(found) == 1
    data: dict[str, Any] = json.loads(found[0])
    return data


def file_of(name: str) -> str:
    file = planner_of(name).file
    assert file is not None
    return file.content.decode()


# --- the plan ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", JOBS)
def test_empty_weights_are_those_of_the_amendment(name: str) -> None:
    facts, plan = assessed(name).facts, planned(name)
    for state, worked in zip(plan.states, plan.plan.states, strict=True):
        sheet = amended_empty_weight(state, facts)
        weight, moment = sheet.value("W"), sheet.value("M")
        assert isinstance(weight, Result)
        assert isinstance(moment, Result)
        told = facts.aircraft.on(state.undercarriage).record.oil
        assert isinstance(told, Fact)
        # On floats the record leaves the oil out: 22 lb at 18 in ahead of the datum.
        oil_kg = 0.0 if told.value == "in" else 22 * 0.45359237
        assert worked.weight_kg == pytest.approx(weight.quantity.si_float + oil_kg, rel=1e-14)
        assert worked.moment_kgm == pytest.approx(moment.quantity.si_float - oil_kg * 18 * 0.0254, rel=1e-14)


@pytest.mark.parametrize("name", DEMONSTRATIONS)
def test_named_loadings_come_out_as_on_the_worksheets(name: str) -> None:
    """The page's engine works in floats; the worksheets of the calculation record work in decimals."""
    facts, plan = assessed(name).facts, planned(name)
    names = [state.name for state in plan.states]
    compared = 0
    for one in facts.loaded:
        loading = one.loading
        if one.when != "take-off" or one.state.name not in names or not loading.at_takeoff:
            continue
        loads = []
        for station in plan.plan.stations:
            told = loading.stations.get(station.name)
            amount = told.value.si_float if isinstance(told, Fact) else 0.0
            loads.append((amount, *[0.0] * (station.places - 1)) if station.places else (amount,))
        volumes = {fuel.tank.name: fuel.amount.value.si_float / (1.0 if fuel.by_volume else _density(fuel)) for fuel in loading.at_takeoff}
        planned_one = _loading(plan, names.index(one.state.name), tuple(loads), tuple(volumes.get(tank.name, 0.0) for tank in plan.plan.tanks))
        takeoff = outcome(plan.plan, planned_one).points[1]
        sheet = loaded_weight(one, facts)
        weight, moment = sheet.value("W"), sheet.value("M")
        assert isinstance(weight, Result)
        assert isinstance(moment, Result)
        assert takeoff.weight_kg == pytest.approx(weight.quantity.si_float, rel=1e-12)
        assert takeoff.moment_kgm == pytest.approx(moment.quantity.si_float, rel=1e-12)
        compared += 1
    assert compared >= 4


def _density(fuel: Any) -> float:
    return float(fuel.tank.density.value.si)


def _loading(plan: LoadingPlan, state: int, loads: tuple[tuple[float, ...], ...], fuel: tuple[float, ...]) -> Any:
    from liftout.physics.planned_loading import Loading

    none = (0.0,) * (1 if plan.plan.order else len(fuel))
    return Loading(state, plan.plan.states[state].limits[0], loads, fuel, none, none)


def test_what_equipment_takes_is_taken() -> None:
    """A seat of the rear bench, and of the baggage compartment what stands in it."""
    plan = planned(RICH)
    stations = [station.name for station in plan.plan.stations]
    groups = [group.name for group in plan.plan.groups]
    by_name = {state.name: state for state in plan.plan.states}
    full, out = by_name["in and drained"], by_name["provisions only"]
    rear = stations.index("rear passengers")
    assert (out.seats[rear], full.seats[rear]) == (2, 1)
    held, left = out.room_kg[groups.index("baggage")], full.room_kg[groups.index("baggage")]
    assert held is not None
    assert left is not None
    cabin_unit = next(item for item in assessed(RICH).facts.items if item.name == "cabin unit")
    assert isinstance(cabin_unit.mass_dry, Fact)
    assert held - left == pytest.approx(cabin_unit.mass_dry.value.si_float, rel=1e-12)


def test_the_price_is_the_difference_of_two_empty_weights() -> None:
    plan = planned("halden_4_cooler")
    by_name = {state.name: state for state in plan.plan.states}
    for state, carried in zip(plan.plan.states, plan.carried, strict=True):
        if state.name in ("before any change", "provisions only", "provisions only, lines filled"):
            assert carried is None
        else:
            assert carried is not None
            assert carried.weight_kg == pytest.approx(state.weight_kg - by_name[carried.against].weight_kg)
            assert carried.fuel_m3 * plan.plan.tanks[0].density_kg_m3 == pytest.approx(carried.weight_kg)
            assert ("filled" in carried.against) == ("filled" in state.name), "self-sealing lines stay as they are"


@pytest.mark.parametrize(
    ("path", "says"),
    [
        ("aircraft / tanks / wing tanks / density", "density"),
        ("aircraft / stations / pilot / arm", "arm"),
        ("aircraft / stations / rear passengers / seats", "seats"),
        ("aircraft / limits", "limits"),
    ],
)
def test_where_the_job_lacks_something_nothing_is_computed(path: str, says: str) -> None:
    made = matter_of(assess(changed({path: None}), remedies=False)).planner
    assert made.file is None
    assert made.part == ""
    assert made.loadings == 0
    assert any(says in f"{need.what} {need.where}" for need in made.missing)
    words = "".join(
        map(block_html, templating.chapter("amendment/planner.md.j2", **chapter(matter_of(assess(changed({path: None}), remedies=False)))))
    )
    assert "No loading can be planned" in words
    assert made.missing[0].what.split()[0] in words


def test_a_state_that_lacks_something_is_named_and_the_others_are_planned() -> None:
    found = loading_plan(assess(changed({"equipment / tail unit / mass dry": None}), remedies=False).facts)
    assert isinstance(found, LoadingPlan)
    assert "provisions only" in [state.name for state in found.states]
    assert {name for name, _ in found.lacking} >= {"in and drained", "only tail unit in and drained"}
    assert all(needs for _, needs in found.lacking)


# --- the data ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", JOBS)
def test_the_page_brings_loadings_of_every_state_at_limits_and_beyond(name: str) -> None:
    data, plan = data_of(file_of(name)), planned(name)
    assert len(data["loadings"]) >= LOADINGS_LEAST
    assert {one["loading"][0] for one in data["loadings"]} == set(range(len(plan.plan.states)))
    assert {one["loading"][1] for one in data["loadings"]} == set(range(len(plan.plan.limits)))
    verdicts = {check[6] for one in data["loadings"] for check in one["checks"]}
    assert verdicts >= {"within", "beyond", "no limit"}
    near = [check for one in data["loadings"] for check in one["checks"] if check[4] is not None and check[3] and abs(check[4]) <= 2e-6 * check[3]]
    assert {check[6] for check in near} == {"within", "beyond"}


def test_what_belongs_to_the_floats_is_there_on_floats_only() -> None:
    plan = planned(FLOATS).plan
    stations = [station.name for station in plan.stations]
    locker, water = stations.index("float locker"), stations.index("water in the floats")
    for state in plan.states:
        assert state.absent == (() if state.name.startswith("floats: ") else (locker, water))
        assert {plan.limits[one].name for one in state.limits} == {"normal"}
        assert len(state.limits) == 1
    assert plan.order == (), "no order is given for three tanks, so every order counts"


def test_every_kind_of_check_comes_up() -> None:
    kinds = {check[0] for one in data_of(file_of(RICH))["loadings"] for check in one["checks"]}
    assert kinds == {"weight", "group", "pilot", "seats", "empty", "instead", "tank", "left", "order", "forward", "aft"}


def test_names_cannot_end_the_script() -> None:
    job = changed({"aircraft / model": json.dumps(ODD_NAME), "aircraft / registration": '"<!--"'})
    made = matter_of(assess(job, remedies=False)).planner
    assert made.file is not None
    for text in (made.part, made.file.content.decode()):
        assert ODD_NAME not in text
        assert data_of(text)["aircraft"]["model"] == ODD_NAME
        inside = re.findall(r"<script[^>]*>(.*?)</script>", text, re.DOTALL)
        assert all("<!--" not in one and "<script" not in one for one in inside)


@pytest.mark.long
def test_the_same_job_gives_the_same_bytes_in_another_process() -> None:
    code = (
        "from tests.browser.planner_pages import planner_of; import hashlib; made = planner_of('tessel_2_cooler'); "
        "print(made.digest, hashlib.sha256(made.part.encode()).hexdigest())"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, timeout=120, env={"PYTHONHASHSEED": "7", "LC_ALL": "C"}
    )
    assert done.returncode == 0, done.stderr
    made = planner_of("tessel_2_cooler")
    assert done.stdout.split() == [made.digest, hashlib.sha256(made.part.encode()).hexdigest()]


# --- the papers -------------------------------------------------------------------------------------------------


def test_the_amendment_names_the_file_and_its_digest(tmp_path: Path) -> None:
    matter = matter_of(assessed("halden_4_cooler"))
    made = matter.planner
    assert made.file is not None
    assert "planner" in next(plan for plan in PLANS if plan.key == "amendment").chapters
    blocks = templating.chapter("amendment/planner.md.j2", **chapter(matter))
    paper = replace(sample.document(), key="amendment", readers=("owner",), companions=(made.file,))
    paper = replace(paper, chapters=(Chapter("planner", "Loading planner", blocks, made.part),))
    issued = issue((paper,), (), tmp_path / "docket", "Docket")
    written = issued.folder / made.file.name
    assert hashlib.sha256(written.read_bytes()).hexdigest() == made.digest
    page = (issued.folder / "site" / "amendment" / "planner.html").read_text(encoding="utf-8")
    assert made.digest in page
    assert made.file.name in page
    assert data_of(page) == data_of(written.read_text(encoding="utf-8"))
    first = (issued.folder / "site" / "index.html").read_text(encoding="utf-8")
    assert 'href="amendment/planner.html"' in first
    assert f'href="../{made.file.name}"' in first
    assert {path.name for path in issued.folder.iterdir()} == {"site", issued.papers[0].name, made.file.name}


@pytest.mark.parametrize("name", DEMONSTRATIONS)
def test_the_file_says_where_the_docket_stands(name: str) -> None:
    count, text = len(assessed(name).open), file_of(name)
    assert data_of(text)["standing"].startswith(f"INCOMPLETE - NOT FOR INSTALLATION, {count} open item") == bool(count)
    assert re.search(r'<p class="standing"><strong>[^<]+</strong></p>', text)
    assert text.count('class="alert warning"') >= 2
    assert "replaces neither the flight manual nor the weight record" in text


@pytest.mark.parametrize("path", SCRIPTS, ids=lambda path: path.name)
def test_the_script_fetches_nothing_and_writes_no_markup(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    words = re.compile(
        r"\b(fetch|XMLHttpRequest|import|require|eval|innerHTML|outerHTML|insertAdjacentHTML|document\.write|WebSocket|sendBeacon|Function)\b\s*[(.=]"
    )
    assert not words.search(text)
    assert set(re.findall(r"https?://[^\s\"']+", text)) <= {"http://www.w3.org/2000/svg"}
    assert "</script" not in text
    assert '"use strict";' in text


@pytest.mark.parametrize(
    "path",
    [*SCRIPTS, *sorted((ROOT / "templates").glob("*/planner*")), *sorted((ROOT / "templates").glob("*/checklist*"))],
    ids=lambda path: path.name,
)
def test_the_page_says_nothing_that_only_a_person_may_decide(path: Path) -> None:
    assert not FORBIDDEN.search(path.read_text(encoding="utf-8"))


def test_the_page_turns_units_with_the_engines_own_factors() -> None:
    """International yard and pound agreement of 1959; the US gallon is 231 cubic inches (NIST SP 811, appendix B.8)."""
    units = data_of(file_of("halden_4_cooler"))["units"]
    assert units["weight"] == {"lb": 0.45359237, "kg": 1.0}
    assert units["length"] == {"in": 0.0254, "mm": 0.001}
    assert units["volume"]["US gal"] == float(231 * Decimal("0.0254") ** 3)
    assert units["volume"]["L"] == 0.001


def test_a_planner_holds_for_any_demonstration_job_that_is_shipped() -> None:
    """No job is left out when one is added."""
    shipped = sorted(path.parent.name for path in Path(folder("jobs")).glob("*/job.yaml"))
    assert shipped == sorted(DEMONSTRATIONS)
    assert load(Path(folder("jobs")) / DEMONSTRATIONS[0] / "job.yaml")
