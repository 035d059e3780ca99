"""Values told with a tolerance, and the jobs at both ends of it: `python -m tests.benchmarks.optimism [minutes] [seed] [part] [parts]`.

Of all numbers of the demonstration jobs, in an order by chance, for so many minutes of one processor; the largest tolerance first, and a
smaller one only where some verdict turns at an end of it. Prints each finding that conforms with a tolerance and fails at an end of it, and each
that comes out better for a tolerance.
"""

from __future__ import annotations

import random
import sys
import time
from collections import Counter

from tests.assessment.optimism import SHARES, places, tried
from tests.demonstrations import JOBS


def main(minutes: float = 10.0, seed: int = 1, part: int = 1, parts: int = 1) -> int:
    chance = random.Random(seed)
    every = [(job, path) for job in JOBS for path in places(job)]
    chance.shuffle(every)
    mine, done = every[part - 1 :: parts], 0
    came: Counter[str] = Counter()
    start = time.process_time()
    for job, path in mine:
        if time.process_time() - start > minutes * 60:
            break
        done += 1
        for share in SHARES:
            found = tried(job, path, share)
            came["no tolerance can be told there" if found is None else "too good" if found.too_good else "as it should be"] += 1
            if found and found.too_good:
                print(f"{job}: {' / '.join(path)} within {share} of itself", *found.too_good, sep="\n    ", flush=True)
            if found and not found.turns:
                break
    print(f"{done} of {len(mine)} values, {sum(came.values())} tolerances: {dict(came)}; {time.process_time() - start:.0f} s of processor time")
    return int(bool(came["too good"]))


if __name__ == "__main__":
    minutes, *counts = sys.argv[1:] or ["10"]
    sys.exit(main(float(minutes), *map(int, counts)))
