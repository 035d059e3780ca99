"""`liftout new`: a job file from questions and answers, or like another job."""

from __future__ import annotations

import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from liftout.cli.terminal import styled

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

    from liftout.job import Said
    from liftout.records.begun import Begun
    from liftout.records.interview import Asking, Interview, Question
    from liftout.records.survey import Ask


def arguments(parser: ArgumentParser) -> None:
    """Write a job file from questions and answers, or go on where one was left."""
    parser.add_argument("folder", metavar="FOLDER", type=Path, help="folder of the job, beside those of other jobs; job.yaml is written there")
    parser.add_argument("--like", metavar="JOB", type=Path, help="take over what another job says, without what belongs to its aircraft alone")
    parser.add_argument("--answers", metavar="FILE", type=Path, help="read the answers from a file, one a line, instead of asking")


def new(asked: Namespace) -> int:
    import datetime

    from liftout.assessment import assess
    from liftout.cli.exits import Exit, giving_up, standing
    from liftout.job import load
    from liftout.job.reader import read_file
    from liftout.records.begun import Begun
    from liftout.records.exclusive import NotWritten
    from liftout.records.interview import BACK, EXPLAIN, STOP, Interview
    from liftout.records.survey import asks

    file = asked.folder / "job.yaml"
    with giving_up():
        given = Given(read_file(asked.answers, asked.answers.name), asked.answers.name) if asked.answers is not None else None
        if given is None and not sys.stdin.isatty():
            given = Given(sys.stdin.read())
        if asked.like is not None and file.exists():
            print(f"{file} is there already. It was left as it is; without --like its questions go on.", file=sys.stderr)
            return Exit.UNREADABLE
        if given is None:
            print(f"Empty: later. {BACK}: the question before. {EXPLAIN}: more words. {STOP}: end for now. Everything answered is in {file}.")
        begun = Begun(file) if given is None else None
        if begun is not None and begun.waiting:
            print(f"Answers from before that are given again: {begun.waiting}.")
        interview = Interview(file, datetime.datetime.now().astimezone().date().isoformat(), asked.like)
        try:
            left = _ask(interview.questions(), given, STOP, begun)
        except NotWritten as error:
            print(error, file=sys.stderr)
            return Exit.UNREADABLE
        except EOFError:
            left = None
        if not file.exists():
            kept = f" The answers are kept; go on with: liftout new {asked.folder}" if begun is not None else ""
            print(f"No job was written: it cannot be read before its first questions are answered.{kept}", file=sys.stderr)
            return Exit.UNREADABLE
        if begun is not None:
            begun.done()
        refused = _unasked(interview, given, file) if given is not None else {}
        assessment = assess(load(file), remedies=False)
    print(f"\n{file}: " + ", ".join(f"{count} {verdict}" for verdict, count in assessment.counts.items() if count))
    for why in dict.fromkeys(refused.values()):
        first, *more = [key for key, each in refused.items() if each == why]
        print(f"  not entered: {first}{f' and {len(more)} more' if more else ''}: {why}")
    for one in (asks(assessment) if given is not None and left is not None else left) or ():
        print(f"  later: {' / '.join(one.path)}: {one.what}")
    print(f"Go on with: liftout new {asked.folder}")
    print("Calculations support the decision of licensed persons and of the local authority; they never replace it.")
    return standing(assessment)


class Given:
    """The answers of a file: one a line in the order of the questions, or each behind the key that is asked about.

    Where lines name keys, order does not matter, and what no line names is left for later. A line that begins with # is a remark.
    """

    def __init__(self, text: str, name: str = "-") -> None:
        """Read them.

        Raises:
            JobError: when a line that names its key leans on the line before.
        """
        from liftout.job.errors import Fault, JobError
        from liftout.records.interview import SAME

        lines = [line for line in text.split("\n") if not line.startswith("#")]
        self._by_key: dict[str, list[str]] = {}
        self._in_order = iter(lines)
        filled = [(number, line.strip()) for number, line in enumerate(text.split("\n"), 1) if line.strip() and not line.startswith("#")]
        if filled and all(re.search(r"\s=(\s|$)", line) for _, line in filled):
            self._in_order = iter(())
            for number, line in filled:
                key, answer = re.split(r"\s+=(?:\s+|$)", line, maxsplit=1)
                if answer == SAME:
                    right = "Where lines name keys there is no value before; say what it rests on."
                    raise JobError([Fault(name, number, 1, (), f'"{SAME}" stands for what the value before rests on.', right)])
                self._by_key.setdefault(key, []).append(answer)
        self._named = bool(self._by_key)

    def answer(self, question: Question) -> str:
        """The answer to a question.

        Raises:
            EOFError: when there is none, and one must be.
        """
        if not self._named:
            answer = next(self._in_order, None)
            if answer is None:
                raise EOFError
            return answer
        from liftout.records.interview import LEAVE, NOT_WITHOUT, RESTING, STATED

        # A question about a place on the aircraft names the place before the key.
        key = next((key for key in self._by_key if question.about == key or question.about.endswith(f": {key}")), None)
        if key is None:
            if question.told == NOT_WITHOUT:
                raise EOFError
            if question.asks.startswith(RESTING):
                return STATED  # or the part that it stands in says it
            if question.like.startswith("yes") and not question.told and any(key.startswith(f"{question.about} / ") for key in self._by_key):
                return "yes"  # what stands in a part that is named describes it
            return LEAVE if question.must and not question.proposed else ""
        answers = self._by_key[key]
        answer = answers.pop(0)
        if not answers:
            del self._by_key[key]
        return answer

    def left(self, job: Said) -> dict[str, list[str]]:
        """Answers that were not asked for, by their keys, of which the job says nothing."""
        from liftout.records.interview import AT_ONCE, NONE, RESTS_ON

        def said(key: str) -> bool:
            *around, last = key.split(" / ")
            if any(job.find((*around[:end], NONE)) is not None for end in range(1, len(around) + 1)):
                return True  # a part around it was declined
            if last == RESTS_ON:
                return any(job.find((*around, ground)) is not None for ground in AT_ONCE)
            return job.find((*around, last)) is not None

        return {key: answers for key, answers in self._by_key.items() if not said(key)}


def _unasked(interview: Interview, given: Given, file: Path) -> dict[str, str]:
    """Enter the answers that no question asked for, one after another as long as one finds its place; what did not, and why."""
    from liftout.job import load

    while True:
        left = given.left(load(file).said)
        refused = {key: why for key, answers in left.items() if (why := interview.name(key, answers))}
        if not refused or len(refused) == len(left):
            return refused


def _ask(questions: Asking, given: Given | None, stop: str, begun: Begun | None) -> tuple[Ask, ...] | None:
    """Put every question, first those that were answered before somebody left; None where somebody stopped.

    Raises:
        EOFError: when there are no more answers.
    """
    try:
        question = next(questions)
        while True:
            kept = begun.again(question) if begun is not None else None
            answer = _answer(question, given) if kept is None else kept
            if answer.strip() == stop:
                return None
            if begun is not None:
                begun.keep(question, answer)
            question = questions.send(answer)
    except StopIteration as end:
        return tuple(end.value)


def _answer(question: Question, given: Given | None) -> str:
    if question.told:
        print(styled(f"  {question.told}", "yellow"))
    like = f" ({question.like})" if question.like else ""
    proposed = f" [{question.proposed}]" if question.proposed else ""
    print(styled(f"\n{question.about}", "bold") if question.about else "")
    asks = f"{question.asks[:1].upper()}{question.asks[1:]}{like}{proposed}: "
    if given is None:
        return input(asks)
    answer = given.answer(question)
    print(f"{asks}{answer}")
    return answer
