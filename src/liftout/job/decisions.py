"""Decisions of licensed persons, in the file decisions.yaml beside the job file.

Each belongs to one referred finding and to the very inputs that the person saw: `inputs` is printed beside the finding
and changes with any of them.
"""

from typing import Any, Literal

from liftout.job.values import Date, Part, Word, group, several, told, unasked


class Decision(Part):
    """What one person decided on one referred finding."""

    criterion: Word = told("the criterion, for example structure.floor_load")
    subject: Word = told("the subject as the finding names it")
    state: Word | None = unasked("the state as the finding names it, where it names one")
    inputs: Word = told("the mark of the inputs as it is printed beside the finding")
    decision: Literal["accepted", "refused"] = told("accepted, which closes the finding, or refused, which does not")
    reason: Word = told("why")
    data: Word = told("the data that the decision rests on: number, revision, page")
    name: Word = told("who decided")
    licence: Word = told("kind and number of the licence or authorisation")
    date: Date = told("when")
    seen: dict[Word, Word] = group(
        "what the inputs were when it was made: written by `liftout decide`, and shown beside what they are when it has lapsed"
    )
    demonstration: Literal["yes"] | None = unasked("yes marks an invented decision in an invented job")

    def as_data(self) -> dict[str, Any]:
        """Every key as it is written, with None or nothing in it where nothing was said."""
        told = ((key.spoken, getattr(self, name)) for name, key in self.KEYS.items())
        return {spoken: value if value is None or isinstance(value, dict) else str(value) for spoken, value in told}

    def as_written(self) -> dict[str, Any]:
        """What was said, by key: the decision as it stands in its file."""
        return {spoken: value for spoken, value in self.as_data().items() if value}

    @property
    def key(self) -> str:
        """What names the finding that it is made on: criterion, subject and state."""
        return " | ".join(part for part in (self.criterion, self.subject, self.state) if part)


class Decisions(Part):
    """The file of decisions of one job."""

    liftout: Literal["1"] = told('version of the language; the first key, "liftout: 1"')
    decisions: tuple[Decision, ...] = several("decisions, oldest first")
