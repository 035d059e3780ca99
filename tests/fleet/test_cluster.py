"""A fleet on the workers of a cluster: one scheduler and two workers on the loopback of this machine, processes of their own."""

from __future__ import annotations

import datetime
import json
import os
import re
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import pytest

from liftout.fleet import cluster as room
from liftout.fleet.checked import OtherProgram, checked
from liftout.fleet.cluster import Certificates, NotReached, address_of, cluster
from liftout.fleet.inputs import gathered
from liftout.fleet.program import this_program
from liftout.fleet.spread import spread
from tests.cli import jobs
from tests.cli.test_check import run
from tests.fleet.jobs import many, written

pytest.importorskip("distributed", reason="the extra fleet is not installed")
pytestmark = [
    pytest.mark.cluster,
    pytest.mark.filterwarnings("ignore::DeprecationWarning", "ignore::ResourceWarning", "ignore::pytest.PytestUnraisableExceptionWarning"),
]

ROOT = Path(__file__).parents[2]
PATIENCE_S = 90
QUIET = {
    "DASK_DISTRIBUTED__WORKER__DAEMON": "False",
    "DASK_DISTRIBUTED__ADMIN__TICK__LIMIT": "60s",
    "PYTHONPATH": f"{ROOT / 'src'}{os.pathsep}{ROOT}",
}


def process(folder: Path, *words: str) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", *words], cwd=folder, env={**os.environ, **QUIET}, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, text=True
    )


@pytest.fixture(scope="module")
def scheduler(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a scheduler with two workers."""
    with begun(tmp_path_factory.mktemp("cluster"), 2) as (address, _):
        yield address


@contextmanager
def begun(folder: Path, workers: int, *more: str) -> Iterator[tuple[str, list[subprocess.Popen[str]]]]:
    """The address of a scheduler, and its process with those of its workers; all are gone afterwards."""
    told = folder / "scheduler.json"
    host = "tls://127.0.0.1" if more else "127.0.0.1"
    words = ("--host", host, "--port", "0", "--no-dashboard", "--scheduler-file", str(told), *more)
    processes = [process(folder, "distributed.cli.dask_scheduler", *words)]
    try:
        address = _address(told)
        for _ in range(workers):
            own = ("--nthreads", "1", "--no-dashboard", "--no-nanny", "--local-directory", str(folder), *more)
            processes.append(process(folder, "distributed.cli.dask_worker", address, *own))
        yield address, processes
    finally:
        for one in reversed(processes):
            one.kill()
            one.wait()


def _address(told: Path) -> str:
    until = time.monotonic() + PATIENCE_S
    while time.monotonic() < until:
        try:
            return str(json.loads(told.read_text(encoding="utf-8"))["address"])
        except (OSError, ValueError):
            time.sleep(0.05)
    raise AssertionError("no scheduler")


def test_a_cluster_writes_the_same_bytes(scheduler: str, tmp_path: Path) -> None:
    many(tmp_path / "jobs", 4)
    jobs.unreadable(tmp_path / "jobs")
    (tmp_path / "jobs" / "parts").mkdir()
    here = run("fleet", tmp_path / "jobs", "--workers", 1, "--out", tmp_path / "here")
    there = run("fleet", tmp_path / "jobs", "--cluster", scheduler, "--out", tmp_path / "there")
    assert there[0] == here[0] == 65, there[2]
    assert there[2] == here[2]
    assert written(tmp_path / "there") == written(tmp_path / "here")
    assert "4 of them were not checked again" in run("fleet", tmp_path / "jobs", "--cluster", scheduler, "--out", tmp_path / "there")[1]


def test_a_worker_with_another_program_is_refused(scheduler: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    many(tmp_path / "jobs", 2)
    other = replace(this_program(), methods="another", release="0")
    monkeypatch.setattr("liftout.fleet.program.this_program", lambda: other)
    code, out, err = run("fleet", tmp_path / "jobs", "--cluster", scheduler, "--out", tmp_path / "out")
    assert (code, out) == (2, "")
    assert re.search("its release, .*methods.* differs", err), err
    assert not list(tmp_path.rglob("index.html"))
    assert not list(tmp_path.rglob("results/*/*.json"))


def _lost_once(mark: str) -> str:
    """Of the worker that does it first, nothing is left."""
    try:
        Path(mark).touch(exist_ok=False)
    except FileExistsError:
        return "done by another"
    os._exit(9)


def test_what_a_lost_worker_had_is_done_by_another(scheduler: str, tmp_path: Path) -> None:
    with cluster(scheduler, Certificates()) as crew:
        tasks = [str(tmp_path / "mark")]
        ((_, future),) = spread(tasks, crew, lambda executor, mark: executor.submit(_lost_once, mark))
        assert future.result() == "done by another"


def _certificate(folder: Path) -> tuple[Path, Path]:
    """A certificate that vouches for itself, and its key."""
    from cryptography import x509
    from cryptography.hazmat.primitives import hashes, serialization
    from cryptography.hazmat.primitives.asymmetric import ec

    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(x509.NameOID.COMMON_NAME, "the workshop")])
    begin, end = datetime.datetime(2020, 1, 1, tzinfo=datetime.UTC), datetime.datetime(2100, 1, 1, tzinfo=datetime.UTC)
    made = x509.CertificateBuilder(name, name, key.public_key(), x509.random_serial_number(), begin, end)
    made = made.add_extension(x509.BasicConstraints(ca=True, path_length=None), critical=True)
    made = made.add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    paths = folder / "own.pem", folder / "own.key"
    paths[0].write_bytes(made.sign(key, hashes.SHA256()).public_bytes(serialization.Encoding.PEM))
    pem = serialization.PrivateFormat.PKCS8
    paths[1].write_bytes(key.private_bytes(serialization.Encoding.PEM, pem, serialization.NoEncryption()))
    return paths


def _lost(address: str, certificates: Certificates, scheduler: subprocess.Popen[str]) -> None:
    with cluster(address, certificates) as crew:
        sleeping = crew.hired().submit(time.sleep, 600)
        scheduler.kill()
        sleeping.result(timeout=PATIENCE_S)


@pytest.mark.long
def test_an_encrypted_cluster_and_one_that_is_lost(tmp_path: Path) -> None:
    many(tmp_path / "jobs", 2)
    certificate, key = _certificate(tmp_path)
    files = ("--tls-ca-file", str(certificate), "--tls-cert", str(certificate), "--tls-key", str(key))
    with begun(tmp_path, 1, *files) as (address, processes):
        assert address.startswith("tls://")
        own = ("--tls-ca", certificate, "--tls-cert", certificate, "--tls-key", key)
        code, _, err = run("fleet", tmp_path / "jobs", "--cluster", address, *own, "--out", tmp_path / "out")
        assert code in (1, 3), err
        assert (tmp_path / "out" / "index.html").is_file()
        with pytest.raises(NotReached, match="was lost on the way"):
            _lost(address, Certificates(certificate, certificate, key), processes[0])
    code, _, err = run("fleet", tmp_path / "jobs", "--cluster", address, "--out", tmp_path / "out")
    assert code == 2
    assert "--tls-ca, --tls-cert and --tls-key" in err


# --- what needs no cluster ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["release", "tables", "methods", "engine", "code"])
def test_each_digest_has_to_be_the_same(name: str, tmp_path: Path) -> None:
    inputs = gathered(many(tmp_path, 1)[0])
    assert checked(inputs, None, this_program(), inputs.digest).code in (0, 1, 3)
    with pytest.raises(OtherProgram, match=f"^{name}$"):
        checked(inputs, None, replace(this_program(), **{name: "another"}), inputs.digest)


def test_a_job_that_came_otherwise_than_it_was_sent_is_refused(tmp_path: Path) -> None:
    first, second = (gathered(file) for file in many(tmp_path, 2))
    with pytest.raises(OtherProgram, match=r"^job$"):
        checked(first, None, this_program(), second.digest)


@pytest.mark.parametrize(
    ("told", "address"),
    [
        ("127.0.0.1:8786", "tcp://127.0.0.1:8786"),
        ("tcp://localhost:1", "tcp://localhost:1"),
        ("tcp://[::1]:8786", "tcp://[::1]:8786"),
        ("tls://example.org:8786", "tls://example.org:8786"),
        ("example.org:8786", "tls://example.org:8786"),
    ],
)
def test_addresses(told: str, address: str) -> None:
    assert address_of(told) == address


@pytest.mark.parametrize(
    "told", ["tcp://example.org:8786", "tcp://192.0.2.1:1", "tcp://127.0.0.1.example.org:1", "tcp://0.0.0.0:8786", "ucx://127.0.0.1:1", "x", ""]
)
def test_jobs_never_travel_unencrypted(told: str) -> None:
    with pytest.raises(NotReached):
        address_of(told)


def _lost(address: str, certificates: Certificates, scheduler: subprocess.Popen[str]) -> None:
    with cluster(address, certificates) as crew:
        sleeping = crew.hired().submit(time.sleep, 600)
        scheduler.kill()
        sleeping.result(timeout=PATIENCE_S)


def test_an_encrypted_cluster_needs_certificates() -> None:
    with pytest.raises(NotReached, match="--tls-ca, --tls-cert and --tls-key"), cluster("tls://127.0.0.1:1", Certificates()):
        pass


def test_nobody_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(NotReached, match="does not answer"), cluster("tcp://127.0.0.1:1", Certificates(), patience_s=0.5):
        pass


@pytest.mark.long
def test_without_the_extra(monkeypatch: pytest.MonkeyPatch) -> None:
    def none(name: str) -> object:
        raise ImportError(name)

    monkeypatch.setattr(room, "import_module", none)
    with pytest.raises(NotReached, match=re.escape("pip install 'liftout[fleet]'")), cluster("tcp://127.0.0.1:1", Certificates()):
        pass
