"""Writes what is told of the libraries: run it after the lock was made again, and after a new version.

python -m tests.supply
"""

from __future__ import annotations

import sys

from tests.supply.bill import BILL, bill
from tests.supply.installed import others
from tests.supply.licences import PAGE, page
from tests.supply.lock import RUN_TIME, run_time_lock

if found := others():
    sys.exit("Install the lock first; what is here is not what it names: " + ", ".join(found))
for path, made in ((RUN_TIME, run_time_lock), (PAGE, page), (BILL, bill)):  # the bill reads the first
    path.write_text(made(), encoding="utf-8", newline="\n")
    print(path.name)
