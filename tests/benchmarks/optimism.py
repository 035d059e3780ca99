"""Values told with a tolerance, and the jobs at both ends of it: `python -m tests.benchmarks.optimism [minutes] [seed]`.

Of all demonstration jobs, by chance, for so many minutes of one processor. Prints each finding that conforms with a tolerance and fails at
an end of it, and each that comes out better for a tolerance.
"""

from __future__ import annotations

import random
import sys
import time
from collections import Counter

from tests.assessment.optimism import SHARES, optimistic, places
from tests.demonstrations import JOBS


def main(minutes: float, seed: int) -> int:
    chance = random.Random(seed)
    every = [(job, path, share) for job in JOBS for path in places(job) for share in SHARES]
    chance.shuffle(every)
    tried: Counter[str] = Counter()
    start = time.process_time()
    for job, path, share in every:
        if time.process_time() - start > minutes * 60:
            break
        found = optimistic(job, path, share)
        tried["no tolerance can be told there" if found is None else "too good" if found else "as it should be"] += 1
        if found:
            print(f"{job}: {' / '.join(path)} within {share} of itself", *found, sep="\n    ", flush=True)
    print(f"{sum(tried.values())} of {len(every)}: {dict(tried)}; {time.process_time() - start:.0f} s of processor time")
    return int(bool(tried["too good"]))


if __name__ == "__main__":
    sys.exit(main(float(sys.argv[1]) if len(sys.argv) > 1 else 10.0, int(sys.argv[2]) if len(sys.argv) > 2 else 1))
