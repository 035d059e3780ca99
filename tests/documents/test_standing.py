"""Papers of an aircraft that may sit down on its tail while it is loaded say so where it is loaded."""

import pytest

from liftout.assessment import assess
from liftout.documents.chapters.matter import Matter
from liftout.documents.chapters.pilot import pilot
from liftout.documents.chapters.placing import placing
from liftout.documents.chapters.restraint import restraint
from liftout.identity.digests import digests
from liftout.job import load
from liftout.resources import folder

STAND = "Put a stand under the tail"


@pytest.mark.parametrize(("main_wheels", "said"), [("61.5 in", 0), ("42 in", 1)])
def test_manual_checklist_and_pilots_pages_want_a_stand_where_it_may_tip_and_only_there(main_wheels: str, said: int) -> None:
    job = load(folder("jobs") / "halden_4_cooler" / "job.yaml").with_change(("aircraft", "wheels", "main wheels"), main_wheels)
    assessed = assess(job, remedies=False)
    matter = Matter(assessed, digests(assessed))
    assert sum(line.startswith(STAND) for line in placing(matter)["standing"]) == said
    assert sum(row.acceptance.startswith(STAND) for row in restraint(matter)["rows"]) == said
    assert sum(line.startswith(STAND) for line in pilot(matter)["before"]) == said
