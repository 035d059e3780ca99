"""A desk with a demonstration job on it, and a caller that is no browser."""

from __future__ import annotations

import http.client
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Thread
from typing import NamedTuple
from urllib.parse import urlencode

from liftout.desk.bench import digest_of
from liftout.desk.serve import Server
from liftout.resources import folder

RUN = ("wiring", "runs", "W1")
TAPE = {"measured.by": "K. Moss", "measured.date": "2026-11-21", "measured.instrument": "tape"}
"""What a new length rests on."""


class Answer(NamedTuple):
    """What came back."""

    code: int
    text: str
    headers: http.client.HTTPMessage


def put(place: Path, name: str = "halden_4_survey") -> Path:
    """A demonstration job with its catalogue and shop, in a folder of its own."""
    jobs = place / "jobs"
    shutil.copytree(folder("jobs"), jobs, ignore=lambda at, names: [one for one in names if (Path(at) / one / "job.yaml").exists() and one != name])
    return jobs / name / "job.yaml"


@contextmanager
def desk(file: Path) -> Iterator[Server]:
    """An open desk."""
    with Server(file) as server:
        thread = Thread(target=server.serve_forever, kwargs={"poll_interval": 0.02})
        thread.start()
        try:
            yield server
        finally:
            server.shutdown()
            thread.join()


def ask(server: Server, where: str = "", method: str = "GET", body: str | None = None, **headers: str) -> Answer:
    """A request as our own page sends it, but for what is told otherwise; `where` begins behind the token."""
    return raw(server, f"/{server.token}/{where}", method, body, **headers)


def raw(server: Server, path: str, method: str = "GET", body: str | None = None, **headers: str) -> Answer:
    """A request for any path."""
    caller = http.client.HTTPConnection("127.0.0.1", server.server_address[1], timeout=30)
    own = {
        "Host": server.host,
        **({"Origin": f"http://{server.host}", "Content-Type": "application/x-www-form-urlencoded"} if body is not None else {}),
    }
    try:
        caller.request(
            method,
            path,
            body,
            {name: value for name, value in (own | {key.replace("_", "-"): value for key, value in headers.items()}).items() if value},
        )
        answer = caller.getresponse()
        return Answer(answer.status, answer.read().decode("utf-8"), answer.headers)
    finally:
        caller.close()


def at(path: tuple[str, ...]) -> str:
    """The address of a part, behind the token."""
    return "?" + urlencode([("at", word) for word in path])


def enter(server: Server, path: tuple[str, ...], digest: str = "", **typed: str) -> Answer:
    """Enter something into the form of a part, on a page that was made just now or from the text with a digest."""
    form = {"digest": digest or digest_of(server.bench.file.read_bytes()), **typed}
    return ask(server, at(path), "POST", urlencode(form))


def resting(key: str, kind: str, said: dict[str, str]) -> dict[str, str]:
    """The answers that say what a value rests on."""
    return {f"rests:{key}": kind, **{f"{name}:{key}": text for name, text in said.items()}}
