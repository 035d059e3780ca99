"""The demonstration jobs, by the names of their folders."""

import pytest

from liftout.resources import folder

JOBS = sorted(path.parent.name for path in folder("jobs").glob("*/job.yaml"))
FIRST = [name if name == "halden_4_cooler" else pytest.param(name, marks=pytest.mark.long) for name in JOBS]
"""The one that has nearly everything in it; the others go the same way, and are left to EVERY_TEST=1."""
