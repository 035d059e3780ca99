"""Job files from a fuzzer that sees which lines each text reaches: `python -m tests.benchmarks.guided_fuzz -max_total_time=600`.

Takes atheris, which is no dependency of ours: `pip install atheris` where a wheel fits. Whatever is read is refused in words or becomes
facts; anything else ends the run with the text that did it. The demonstration jobs are the texts that it begins with. What follows the
command goes to libFuzzer.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

import atheris  # type: ignore[import-not-found]

with atheris.instrument_imports(include=["liftout.job", "liftout.facts", "liftout.quantities"]):
    from liftout.facts import gather
    from liftout.job import JobError, told

from tests.job.strange_jobs import HOSTILE, JOBS, TEXTS

LARGEST = 60_000


def one(data: bytes) -> None:
    """Read one text as a job of a shop."""
    text = data.decode("utf-8", "replace")
    try:
        gather(told(text, JOBS / "halden_4_cooler" / "job.yaml"))
    except JobError as error:
        assert error.faults  # noqa: PT017 - either outcome is right
        assert all(fault.wrong and fault.right and fault.line >= 1 for fault in error.faults)  # noqa: PT017 - as above


def escaped(word: str) -> str:
    """A word as libFuzzer's dictionaries have it."""
    return '"' + "".join("\\x" + format(byte, "02x") for byte in word.encode()[:60]) + '"\n'


def main() -> None:
    with tempfile.TemporaryDirectory() as place:
        words, corpus = Path(place, "words.txt"), Path(place, "corpus")
        words.write_text("".join(map(escaped, HOSTILE)), encoding="ascii")
        corpus.mkdir()
        for name, text in TEXTS.items():
            (corpus / name).write_text(text, encoding="utf-8")
        atheris.Setup([sys.argv[0], str(corpus), f"-dict={words}", f"-max_len={LARGEST}", "-timeout=10", "-rss_limit_mb=1000", *sys.argv[1:]], one)
        atheris.Fuzz()


if __name__ == "__main__":
    main()
