"""Speed, measured and never tested: `python -m tests.benchmarks [check] [issue]`.

`check` is compared with two bare Pythons that do nothing: one imports whatever a check imports, ours left out; one imports the libraries
that a check may be expected to need (models, units with our short registry, arrays, a terminal). `issue` is compared with a bare MkDocs
build and bare Typst compiles of the very same sources, cold and in a process that has issued another docket. Fresh processes, a new text each
time, minimum and median of ten, in processor time: the clock tells of whatever else is at work on the machine.
Byte code is written before the first run, as an installation writes it. Nothing is taken from papers that were kept.
"""

from __future__ import annotations

import compileall
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.benchmarks.processor import Took, run

ROOT = Path(__file__).resolve().parents[2]
RUNS = int(os.environ.get("RUNS", "10"))

LOADED = """
import sys
from liftout.cli.main import main
try:
    main(sys.argv[1:])
except SystemExit:
    print(*(name for name in sys.modules if name != "__main__" and name.partition(".")[0] != "liftout"), file=sys.stderr)
"""

BARE_EXPECTED = """
import pint, numpy, rich.console
from pydantic import BaseModel, Field, ValidationError, model_validator  # the package's own name alone loads next to nothing
from importlib.resources import files
registry = pint.UnitRegistry(None)
registry.load_definitions(files("liftout").joinpath("units.txt").read_text(encoding="utf-8").splitlines())
"""

BARE_MKDOCS = """
import sys
from mkdocs.commands.build import build
from mkdocs.config import load_config
build(load_config(sys.argv[1]))
"""

BARE_TYPST = """
import sys, typst
typst.compile(sys.argv[1], output=sys.argv[2], root=sys.argv[3], font_paths=[sys.argv[4]], ignore_system_fonts=True, pdf_standards=["a-3a", "ua-1"])
"""


WARM_OURS = """
import sys, time
from liftout.cli.main import main
for job, out in zip(sys.argv[1::2], sys.argv[2::2]):
    begun = time.process_time()
    try:
        main(["issue", job, "--out", out])
    except SystemExit:
        pass
    print("took", time.process_time() - begun)
"""

WARM_BARE = """
import sys, time, typst
from mkdocs.commands.build import build
from mkdocs.config import load_config
for given in sys.argv[1:]:
    site, *papers = given.split("|")
    begun = time.process_time()
    build(load_config(site))
    for paper in papers:
        source, target, root, fonts = paper.split(">")
        typst.compile(source, output=target, root=root, font_paths=[fonts], ignore_system_fonts=True, pdf_standards=["a-3a", "ua-1"])
    print("took", time.process_time() - begun)
"""


def main(asked: list[str]) -> None:
    """Measure what is asked, or both."""
    compileall.compile_dir(ROOT / "src", quiet=1)
    if not asked or "check" in asked:
        _check()
    if not asked or "issue" in asked:
        _issue()


def _check() -> None:
    with tempfile.TemporaryDirectory() as folder:
        jobs = _jobs(Path(folder))
        imports = _imports(["check", str(_renamed(jobs, RUNS))])
        bare, expected, ours = [], [], []
        for run in range(RUNS):  # in turns, so that both meet the same other load
            bare.append(_timed([sys.executable, "-c", imports]))
            expected.append(_timed([sys.executable, "-c", BARE_EXPECTED]))
            ours.append(_timed([sys.executable, "-m", "liftout.cli.main", "check", str(_renamed(jobs, run))]))
    _say("check", ours, "bare Python with the libraries to be expected", expected)
    _say("check", ours, "bare Python with what a check truly imports", bare)


def _imports(arguments: list[str]) -> str:
    """A program that imports all that a command imports, but nothing of ours, and does nothing."""
    done = subprocess.run([sys.executable, "-c", LOADED, *arguments], cwd=ROOT, capture_output=True, text=True, check=True)
    names = [name for name in done.stderr.split() if all(part.isidentifier() for part in name.split("."))]
    return f"import contextlib, importlib\nfor name in {names}:\n    with contextlib.suppress(ImportError):\n        importlib.import_module(name)\n"


def _issue() -> None:
    from tests.benchmarks.bare import bare_sources

    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        jobs = _jobs(place)
        ours, site, paper, warm, warm_bare = [], [], [], [], []
        for run in range(RUNS):
            first, job = (_renamed(jobs, f"{run}{name}") for name in ("a", "b"))
            ours.append(_timed([sys.executable, "-m", "liftout.cli.main", "issue", str(job), "--out", str(place / f"docket-{run}")]))
            sources = [bare_sources(one, place / f"bare-{run}-{number}") for number, one in enumerate((first, job))]
            site.append(_timed([sys.executable, "-c", BARE_MKDOCS, str(sources[1].mkdocs)]))
            paper.append(sum(_timed([sys.executable, "-c", BARE_TYPST, *map(str, compile_)]) for compile_ in sources[1].typst))
            folders = [str(place / f"warm-{run}-{name}") for name in "ab"]
            warm.append(_last([sys.executable, "-c", WARM_OURS, str(first), folders[0], str(job), folders[1]]))
            warm_bare.append(
                _last(
                    [
                        sys.executable,
                        "-c",
                        WARM_BARE,
                        *("|".join([str(one.mkdocs), *(">".join(map(str, paper)) for paper in one.typst)]) for one in sources),
                    ]
                )
            )
            for made in place.glob("[dbw]*-*"):
                shutil.rmtree(made)
    both = [a + b for a, b in zip(site, paper, strict=True)]
    _say("issue", ours, "bare MkDocs build + bare Typst compiles", both)
    print(f"    of that: MkDocs {min(site):.2f} s, Typst {min(paper):.2f} s")
    _say("issue, after another docket in the same process", warm, "the same bare builds, after those of the other docket", warm_bare)


def _last(command: list[str]) -> float:
    """The processor time that a program tells of the last thing it did."""
    said = _run(command).said
    return float([line.split()[1] for line in said.splitlines() if line.startswith("took ")][-1])


def _jobs(place: Path) -> Path:
    shutil.copytree(ROOT / "jobs", place / "jobs")
    return place / "jobs"


def _renamed(jobs: Path, run: object) -> Path:
    """The demonstration job with a text that no earlier run has seen; `run` names it."""
    told = jobs / f"job-{run}"
    told.mkdir(exist_ok=True)
    for file in (jobs / "halden_4_cooler").glob("*.yaml"):
        shutil.copy(file, told)
    job = told / "job.yaml"
    text = (ROOT / "jobs" / "halden_4_cooler" / "job.yaml").read_text(encoding="utf-8")
    job.write_text(text.replace("North Sound Flying Group", f"North Sound Flying Group {run}"), encoding="utf-8")
    return job


def _timed(command: list[str]) -> float:
    """Processor time of a command, in seconds."""
    return _run(command).processor


def _run(command: list[str]) -> Took:
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"} | {"LIFTOUT_CACHE": ""}
    done = run(command, environment, ROOT)
    if done.code not in (0, 1, 3) or "Traceback" in done.said:
        raise SystemExit(f"{command}: {done.said}")
    return done


def _say(name: str, ours: list[float], other: str, theirs: list[float]) -> None:
    print(f"{name}: minimum {min(ours):.2f} s, median {statistics.median(ours):.2f} s")
    print(f"    {other}: minimum {min(theirs):.2f} s, median {statistics.median(theirs):.2f} s")
    print(f"    times: {min(ours) / min(theirs):.2f} by the minima, {statistics.median(ours) / statistics.median(theirs):.2f} by the medians")


if __name__ == "__main__":
    main(sys.argv[1:])
