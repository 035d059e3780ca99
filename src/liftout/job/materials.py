"""Materials that could burn, wherever in the fit they are: in an item, a line or a duct."""

from typing import Any

from liftout.job.values import Grounded, Word, asked, group


class Material(Grounded):
    """A material that could burn."""

    passed: Word | None = asked("name the flammability test that the material passed, with its report", "flammability test that it passed")


def burnable(of: str) -> Any:
    """The materials of a part; none may go unsaid."""
    return group("materials that could burn, by name", f"list the materials of {of} that could burn")
