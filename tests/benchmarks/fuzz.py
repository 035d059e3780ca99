"""Strange jobs for so many minutes of one processor: `python -m tests.benchmarks.fuzz 30`.

Prints how many were tried, how many were assessed, the slowest, the most memory, and the seed of each that broke something; as it goes, too,
so that a run that is stopped was not for nothing.
"""

from __future__ import annotations

import random
import resource
import sys
import time
import traceback

from liftout.assessment import assess
from liftout.job import JobError, told
from tests.job.strange_jobs import JOBS, strange

LONGEST_S, LARGEST_MB = 2.0, 500.0
EACH = 500
"""After so many jobs it tells how far it has come."""


def main(minutes: float, first: int) -> int:
    seed, counts, broken = first, {"assessed": 0, "refused": 0}, []
    slowest = (0.0, 0)
    start = time.process_time()
    while time.process_time() - start < minutes * 60:
        name, text = strange(random.Random(seed))
        begun = time.process_time()
        try:
            assess(told(text, JOBS / name / "job.yaml"), remedies=False)
            counts["assessed"] += 1
        except JobError:
            counts["refused"] += 1
        except Exception:  # noqa: BLE001  whatever breaks is what is looked for
            broken.append(seed)
            print(f"seed {seed} broke:", traceback.format_exc(limit=-3), flush=True)
        slowest = max(slowest, (time.process_time() - begun, seed))
        seed += 1
        if (seed - first) % EACH == 0:
            _told(seed - first, counts, broken, slowest, (time.process_time() - start) / 60)
    tried = seed - first
    most = _told(tried, counts, broken, slowest, (time.process_time() - start) / 60)
    return int(bool(broken) or slowest[0] > LONGEST_S or most > LARGEST_MB or counts["assessed"] * 2 < tried)


def _told(tried: int, counts: dict[str, int], broken: list[int], slowest: tuple[float, int], minutes: float) -> float:
    """Print how far it has come; the most memory so far, in MB."""
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(
        f"{tried} jobs in {minutes:.1f} minutes of one processor: {counts['assessed']} assessed, {counts['refused']} refused, {len(broken)} broke {broken}; "
        f"slowest {slowest[0]:.2f} s (seed {slowest[1]}), most memory {most:.0f} MB",
        flush=True,
    )
    return most


if __name__ == "__main__":
    sys.exit(main(float(sys.argv[1]) if len(sys.argv) > 1 else 30.0, int(sys.argv[2]) if len(sys.argv) > 2 else 1000))
