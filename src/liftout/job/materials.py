"""Materials that could burn, wherever in the fit they are: in an item, a line or a duct."""

from typing import Any

from pydantic import Field

from liftout.job.values import Grounded, Word, asked


class Material(Grounded):
    """A material that could burn."""

    passed: Word | None = asked("name the flammability test that the material passed, with its report", "flammability test that it passed")


def burnable(of: str) -> Any:
    """The materials of a part; none may go unsaid."""
    return Field(
        default_factory=dict,
        description="materials that could burn, by name",
        json_schema_extra={"measure": f"list the materials of {of} that could burn"},
    )
