"""What an as-fitted paper carries inside, and the comparison made again from it: the job that was fitted from, the records, what was found of photographs."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, Final

from liftout import __version__
from liftout.documents.document import Attachment
from liftout.identity.digests import Digests
from liftout.identity.places import placed, places
from liftout.identity.resolved import resolved_yaml
from liftout.job import Job
from liftout.job.as_fitted import record_of
from liftout.records.as_fitted import Closed, Record
from liftout.records.carried import job_of
from liftout.records.embed import AS_FITTED, DECISIONS, FITTED_FROM, RECORD, attachments

SCHEMA: Final = 1
"""Of as-fitted.json."""
_MEDIA: Final = {".json": "application/json", ".yaml": "application/yaml", ".yml": "application/yaml"}


def carried(made: Closed, after: Digests) -> tuple[Attachment, ...]:
    """Everything that the papers of a closed record carry.

    Args:
        made: the comparison.
        after: digests of the job as fitted.
    """
    return (*attachments(made.after, after), *_inside(made))


def _inside(made: Closed) -> Iterator[Attachment]:
    job = made.before.job
    yield Attachment(FITTED_FROM, "application/yaml", "the job of the docket that was fitted", "source", resolved_yaml(job).encode())
    names = [f"{RECORD}{position}{record.file.suffix.lower()}" for position, record in enumerate(made.records, 1)]
    for name, record in zip(names, made.records, strict=True):
        media = _MEDIA.get(record.file.suffix.lower(), "application/octet-stream")
        yield Attachment(name, media, "the record as it was handed in", "source", record.content)
    said = {
        "liftout": __version__,
        "schema": SCHEMA,
        "count": made.number,
        "places": places(job.said),
        "records": [
            {"inside": name, "file": record.file.name, "digest": record.digest, "photos": dict(record.photos)}
            for name, record in zip(names, made.records, strict=True)
        ],
    }
    content = json.dumps(said, ensure_ascii=False, separators=(",", ":")) + "\n"
    yield Attachment(AS_FITTED, "application/json", "what the as-fitted record was made from", "data", content.encode())


class ToldOtherwise(Exception):
    """What a paper carries is told otherwise than this release tells it."""


def told(inside: Mapping[str, bytes]) -> tuple[Job, list[Record], int]:
    """The job of the docket, the records, and the how-manieth as-fitted record of the docket a paper is, from what it carries.

    Raises:
        JobError: when the job or a record cannot be read by this release.
        ToldOtherwise: when what is inside is told otherwise than `carried` tells it.
    """
    job = job_of(inside[FITTED_FROM], inside.get(DECISIONS))
    try:
        said: dict[str, Any] = json.loads(inside[AS_FITTED])
        job = replace(job, said=placed(job.said, said["places"]))
        listed = [(str(one["inside"]), Path(str(one["file"])), dict(one["photos"])) for one in said["records"]]
        count = int(said["count"])
        contents = [inside[name] for name, _, _ in listed]
    except (IndexError, TypeError, KeyError, ValueError, AttributeError, RecursionError):
        raise ToldOtherwise(AS_FITTED) from None
    records = [Record(*record_of(content, file.name), file, content, photos) for content, (_, file, photos) in zip(contents, listed, strict=True)]
    return job, records, count
