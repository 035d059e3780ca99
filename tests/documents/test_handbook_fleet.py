"""The page of the handbook about many jobs: its commands run as they stand, its files can be read."""

from __future__ import annotations

import shlex
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from liftout.fleet import cluster as room
from liftout.fleet.cluster import Certificates, address_of
from liftout.fleet.spread import Cores
from liftout.job import JobError, load
from liftout.resources import folder
from tests.cli.test_check import run
from tests.fleet import sisters
from tests.records import on_disk


def typed() -> list[str]:
    """What stands between fences, one text a fence."""
    return [piece.strip("\n") for piece in (folder("site") / "handbook" / "fleet.md").read_text(encoding="utf-8").split("```")[1::2]]


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with two sisters of the demonstration job, in which somebody sits; papers are not set, one core does all."""
    jobs = on_disk.put(tmp_path / "jobs")
    sisters.fleet(jobs, 2)
    for other in ("orrin_6p_cooler", "tessel_2_cooler", "halden_4_survey", "halden_4_cooler"):
        (jobs / other / "job.yaml").unlink()
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.setattr("liftout.documents.paper.write", lambda *_: b"%PDF-1.7")
    monkeypatch.setattr("liftout.documents.site.build", lambda documents, folder, **_: folder.mkdir())
    monkeypatch.setattr("liftout.fleet.spread.cores", lambda: 1)

    @contextmanager
    def near(text: str, certificates: Certificates) -> Iterator[Cores]:
        assert address_of(text) == "tls://shop-server:8786"
        assert [one.name for one in (certificates.authority, certificates.own, certificates.key) if one] == ["authority.pem", "own.pem", "own.key"]
        yield Cores(1)

    monkeypatch.setattr(room, "cluster", near)
    return tmp_path


@pytest.mark.long
def test_the_commands_of_the_page_run_as_they_stand(shop: Path) -> None:
    commands = [line for text in typed() for line in text.split("\n") if line.startswith("liftout fleet")]
    assert len(commands) == 7
    for line in commands:
        code, out, err = run(*shlex.split(line)[1:])
        assert code == (0 if "--differences" in line else 1), (line, err)  # the weight records of the sisters do not add up
        assert out.strip(), line
    assert (shop / "fleet" / "index.html").is_file()
    assert (shop / "sisters.csv").is_file()
    assert (shop / "jobs" / "sister_01" / "issued" / "SFW-5001" / "A" / "findings.json").is_file()


def test_the_files_of_the_page_can_be_read(shop: Path) -> None:
    kit, job = (text for text in typed() if not text.startswith("liftout fleet"))
    (shop / "jobs" / "kits" / "my_kit.yaml").write_text(kit + "\n", encoding="utf-8")
    file = shop / "jobs" / "mine" / "job.yaml"
    file.parent.mkdir()
    file.write_text(job + "\n", encoding="utf-8")
    told = load(file)
    assert told.document.aircraft.model == "Halden 4"
    assert told.document.aircraft.serial_number == "H4-2201"
    assert "cabin unit" in told.document.equipment
    (shop / "jobs" / "kits" / "my_kit.yaml").write_text(kit + "\n    serial: CU-1\n", encoding="utf-8")
    with pytest.raises(JobError):
        load(file)
