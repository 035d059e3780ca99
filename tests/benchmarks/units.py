"""The same jobs in US and in SI units: `python -m tests.benchmarks.units 10000 [seed]`.

Prints how many jobs were assessed both ways, how many conclusions were compared, and each that came out otherwise, with its seed.
"""

from __future__ import annotations

import random
import sys
import time
from collections import Counter

from tests.assessment.other_units import differences, in_si, quantities, varied, verdicts


def main(count: int, first: int) -> int:
    start = time.process_time()
    jobs: Counter[str] = Counter()
    compared: Counter[str] = Counter()
    for seed in range(first, first + count):
        name, said, changes = varied(random.Random(seed))
        file = quantities(name)[0].file
        told = verdicts(said, file)
        found = differences(told, verdicts(in_si(said), file))
        jobs["refused" if isinstance(told, str) else "assessed"] += 1
        if not isinstance(told, str):
            compared.update(str(finding.verdict) for finding in told.values())
            nearest = min((abs(f.margin.quantity.magnitude) for f in told.values() if f.margin and f.margin.quantity.magnitude), default=None)
            jobs["with a margin below a hundredth"] += nearest is not None and nearest < 0.01
        if found:
            jobs["otherwise"] += 1
            print(f"seed {seed} ({name}; {'; '.join(changes)}):", *found, sep="\n    ", flush=True)
        if (seed - first + 1) % 500 == 0:
            print(f"{seed - first + 1}: {dict(jobs)} {dict(compared)} {time.process_time() - start:.0f} s", flush=True)
    print(
        f"{count} jobs: {dict(jobs)}; {sum(compared.values())} conclusions: {dict(compared)}; {time.process_time() - start:.0f} s of processor time"
    )
    return int(bool(jobs["otherwise"]))


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000, int(sys.argv[2]) if len(sys.argv) > 2 else 1))
