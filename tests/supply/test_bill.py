"""The bill of materials is what the lock says, in the form of the standard."""

from __future__ import annotations

import hashlib
import json
import os
import subprocess
import sys

from tests.supply.bill import BILL, OWN
from tests.supply.installed import departures
from tests.supply.lock import ROOT, RUN_TIME, locked

SAID = json.loads(BILL.read_text(encoding="utf-8"))


def test_it_names_the_libraries_of_the_lock_with_version_and_hashes() -> None:
    told = {one["name"]: (one["version"], sorted(sha["content"] for sha in one["hashes"])) for one in SAID["components"]}
    assert told == {name: (one.version, sorted(one.hashes)) for name, one in locked(RUN_TIME).items()}, "run python -m tests.supply"


def test_it_names_the_lock_that_it_was_made_from() -> None:
    assert SAID["metadata"]["properties"] == [{"name": "liftout:runtime.lock:sha256", "value": hashlib.sha256(RUN_TIME.read_bytes()).hexdigest()}]


def test_files_of_others_in_the_wheel_are_those_that_lie_there() -> None:
    files = [file for part in SAID["metadata"]["component"]["components"] for file in part["components"]]
    assert files
    for file in files:
        assert file["hashes"][0]["content"] == hashlib.sha256((ROOT / file["name"]).read_bytes()).hexdigest(), file["name"]


def test_everything_is_reached_from_the_program() -> None:
    needs = {one["ref"]: one["dependsOn"] for one in SAID["dependencies"]}
    waiting, reached = [OWN], set[str]()
    while waiting:
        reached.add(one := waiting.pop())
        waiting += [inner for inner in needs[one] if inner not in reached]
    assert reached == {OWN, *(one["bom-ref"] for one in SAID["components"])}


def test_it_keeps_to_the_schema_of_the_standard_and_its_library_reads_it() -> None:
    from cyclonedx.model.bom import Bom
    from cyclonedx.schema import SchemaVersion
    from cyclonedx.validation.json import JsonStrictValidator

    validator = JsonStrictValidator(SchemaVersion.V1_6)
    assert validator.validate_str(json.dumps(SAID)) is None
    assert validator.validate_str(json.dumps({**SAID, "components": [{"type": "library"}]})) is not None
    read = Bom.from_json(SAID)
    assert read.validate()
    assert len(read.components) == len(SAID["components"])


@departures
def test_it_is_the_same_wherever_it_is_made() -> None:
    """Another process, another order of sets, another place and language."""
    program = "import sys; from tests.supply.bill import bill; sys.stdout.buffer.write(bill().encode())"
    surroundings = {**os.environ, "PYTHONHASHSEED": "7", "TZ": "Pacific/Auckland", "LC_ALL": "C", "PYTHONPATH": os.pathsep.join(sys.path)}
    done = subprocess.run([sys.executable, "-c", program], cwd=ROOT, env=surroundings, capture_output=True, check=True)
    assert done.stdout == BILL.read_bytes(), "run python -m tests.supply"
