"""The bill of materials (CycloneDX 1.6, JSON): what an installation consists of, for programs that watch for known faults.

It is made from the lock alone and is the same wherever and whenever it is made: no date, no machine, names in order.
"""

from __future__ import annotations

import hashlib
import json
import uuid
from typing import Any

from packaging.utils import canonicalize_name

from liftout import __version__
from tests.supply.licences import CARRIED, Carried, licence
from tests.supply.lock import ROOT, RUN_TIME, TOOLS, closure, locked, project, run_time

BILL = ROOT / ".ci" / "sbom.cdx.json"
"""It ships in the wheel's `.dist-info/sboms`, where PEP 770 puts it."""

OWN = "liftout"


def bill() -> str:
    """The file's text."""
    return json.dumps(_bill(), indent=1, ensure_ascii=False) + "\n"


def _bill() -> dict[str, Any]:
    said: dict[str, Any] = {
        "$schema": "http://cyclonedx.org/schema/bom-1.6.schema.json",
        "bomFormat": "CycloneDX",
        "specVersion": "1.6",
        "version": 1,
        "metadata": {
            "lifecycles": [{"phase": "build"}],
            "component": {
                "type": "application",
                "bom-ref": OWN,
                "name": OWN,
                "version": __version__,
                "licenses": [{"license": {"id": "Apache-2.0"}}],
                "components": [_part(one) for one in CARRIED],
            },
            "properties": [{"name": f"{OWN}:{RUN_TIME.name}:sha256", "value": hashlib.sha256(RUN_TIME.read_bytes()).hexdigest()}],
        },
        "components": [_library(name) for name in run_time()],
        "dependencies": _dependencies(),
    }
    mark = uuid.uuid5(uuid.NAMESPACE_OID, json.dumps(said, sort_keys=True))
    return {**said, "serialNumber": f"urn:uuid:{mark}"}


def _library(name: str) -> dict[str, Any]:
    one, extras = locked(RUN_TIME)[name], run_time()[name]
    said = {
        "type": "library",
        "bom-ref": _reference(name),
        "name": name,
        "version": one.version,
        "scope": "optional" if extras else "required",
        "hashes": [{"alg": "SHA-256", "content": sha} for sha in one.hashes],  # of each file that the lock accepts: one for every system
        "licenses": _licensed(licence(name)),
        "purl": _reference(name),
    }
    return {**said, "properties": [{"name": f"{OWN}:extra", "value": extra} for extra in extras]} if extras else said


def _part(one: Carried) -> dict[str, Any]:
    """What the wheel holds of others, each of its files below it."""
    files = [
        {
            "type": "file",
            "bom-ref": (path := found.relative_to(ROOT).as_posix()),
            "name": path,
            "hashes": [{"alg": "SHA-256", "content": hashlib.sha256(found.read_bytes()).hexdigest()}],
        }
        for found in one.paths()
    ]
    return {
        "type": "library",
        "bom-ref": one.purl,
        "name": one.name,
        "version": one.version,
        "licenses": [{"license": {"id": one.licence}}],
        "purl": one.purl,
        "components": files,
    }


def _licensed(words: str) -> list[dict[str, Any]]:
    """An expression, a name of the list of SPDX, or the library's own words."""
    from cyclonedx.spdx import is_expression, is_supported_id

    if is_supported_id(words):
        return [{"license": {"id": words}}]
    if is_expression(words):
        return [{"expression": words}]
    return [{"license": {"name": words}}]


def _reference(name: str) -> str:
    return f"pkg:pypi/{name}@{locked(RUN_TIME)[name].version}"


def _dependencies() -> list[dict[str, Any]]:
    wanted = [one for extra, ones in project().items() if extra != TOOLS for one in ones]
    needs = closure(wanted)
    first = {"ref": OWN, "dependsOn": sorted({_reference(canonicalize_name(one.name)) for one in wanted})}
    return [first, *({"ref": _reference(name), "dependsOn": sorted(map(_reference, needs[name]))} for name in sorted(needs))]
