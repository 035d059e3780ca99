"""Values told with a tolerance, and the jobs at both ends of it: `python -m tests.benchmarks.optimism [minutes] [seed] [part] [parts]`.

Of all numbers of the demonstration jobs, in an order by chance, for so many minutes of one processor; the largest tolerance that can be told, as a
share of the number. Prints each conclusion from which an end takes more than is told of it, whatever is left.
"""

from __future__ import annotations

import random
import sys
import time
from collections import Counter

from tests.assessment.optimism import SHARES, leaks, places, size
from tests.assessment.other_units import quantities
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
        wrong = _wrong(job, path)
        came["no tolerance can be told there" if wrong is None else "not as told" if wrong else "as told"] += 1
        if wrong:
            print(f"{job}: {' / '.join(path)}", *wrong, sep="\n    ", flush=True)
    print(f"{done} of {len(mine)} values: {dict(came)}; {time.process_time() - start:.0f} s of processor time")
    return int(bool(came["not as told"]))


def _wrong(job: str, path: tuple[str, ...]) -> list[str] | None:
    """What is lost that is not told, within the largest share of itself that can be told; None where none can."""
    for share in SHARES:
        found = leaks(quantities(job)[0], path, size(job, path) * share)
        if found is not None:
            return [f"within {share} of itself: {one}" for one in found]
    return None


if __name__ == "__main__":
    minutes, *counts = sys.argv[1:] or ["10"]
    sys.exit(main(float(minutes), *map(int, counts)))
