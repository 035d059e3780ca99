"""A job made by questions: first what a file cannot be read without, then whatever its findings ask for, one thing at a time.

The job file is the only memory. It is written anew after each answer, so the interview may be left at any question and taken
up again: what is still missing is asked, and nothing else.
"""

from __future__ import annotations

import typing
from collections.abc import Generator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final, NamedTuple

from liftout.assessment import assess
from liftout.facts import gather
from liftout.job import Document, JobError, bare, field_at, told, written_at
from liftout.job.catalogue import Catalogue
from liftout.job.commented import commented
from liftout.job.edit import CannotEnter, entered, quoted
from liftout.job.errors import one_of
from liftout.job.part import REQUIRED, Key, Part
from liftout.job.reader import compose, read_file
from liftout.job.serial_bound import unset
from liftout.job.shop import FILE as SHOP
from liftout.job.values import Spelt, Written
from liftout.job.whole import LANGUAGE
from liftout.quantities import QuantityError
from liftout.records.exclusive import rewrite
from liftout.records.survey import Ask, asks, how_written

BACK, STOP, EXPLAIN, LATER, NONE = "back", "stop", "?", "", "none"
"""What may be answered to any question: the one before, an end for now, more words, later; to many: there is none."""

MEASURED, DOCUMENT, NAMEPLATE, STATED = "measured", "document", "nameplate", "stated"
GROUNDS: Final = (MEASURED, DOCUMENT, NAMEPLATE, STATED)


class Question(NamedTuple):
    """One question."""

    asks: str
    about: str = ""
    """Where on the aircraft, or which key of the job file."""
    like: str = ""
    """How an answer is written."""
    proposed: str = ""
    """What an empty answer means; where there is nothing, it means later."""
    told: str = ""
    """What is said first: what was wrong with the answer before, say."""
    must: bool = False
    """Whether the job cannot be read without it."""


Asking = Generator[Question, str, Any]
"""Questions going out and answers coming in."""


class GoBack(Exception):
    """The question before, please."""


@dataclass
class Interview:
    """The interview about one job file."""

    file: Path
    today: str
    like: Path | None = None
    _who: dict[str, str] = field(default_factory=dict)

    def questions(self) -> Asking:
        """The whole of it, until nothing is asked any more. It returns what has to be described in the job file by hand."""
        if not self.file.exists():
            yield from self._head()
        return (yield from self._facts())

    # --- what a file cannot be read without -------------------------------------------------------------------------

    def _head(self) -> Asking:
        said: dict[str, Any] = {"liftout": LANGUAGE}
        if self.like is not None:
            text = read_file(self.like, self.like.name)
            like, _ = unset(compose(text, self.like.name).plain())
            assert isinstance(like, dict)
            said |= {key: value for key, value in like.items() if key != "liftout"}
        steps = [self._papers, self._airframe, self._record, self._equipment]
        at = 0
        while at < len(steps):
            try:
                yield from steps[at](said)
            except GoBack:
                at = max(at - 1, 0)
                continue
            at += 1
        head = ("Written by questions and answers. What stands behind a # is still to be said.",)
        text = commented(said, head)
        told(text, self.file)
        self.file.parent.mkdir(parents=True, exist_ok=True)
        rewrite(self.file, lambda _: text.encode("utf-8"))

    def _papers(self, said: dict[str, Any]) -> Asking:
        papers = dict(said.get("papers", {}))
        papers["number"] = yield from self._value(("papers", "number"), "number of the docket", must=True)
        papers["revision"] = yield from self._value(("papers", "revision"), "its revision", proposed="A", must=True)
        papers["date"] = yield from self._value(("papers", "date"), "its date", proposed=self.today, must=True)
        if not (self.file.absolute().parent.parent / SHOP).exists():
            papers["shop"] = yield from self._value(("papers", "shop"), "the shop that makes them", proposed=str(papers.get("shop", "")), must=True)
        customer = yield from self._value(("papers", "customer"), "for whom the papers are")
        said["papers"] = papers | ({"customer": customer} if customer else {})

    def _airframe(self, said: dict[str, Any]) -> Asking:
        plane = dict(said.get("aircraft", {}))
        entries = self._entries("airframes")
        if not {"from", "model"} & {*plane} and "from" not in said:
            chosen = yield from self._choice("which airframe of the catalogue it is", "aircraft", [*entries, NONE])
            if chosen != NONE:
                plane["from"] = f"airframes/{chosen}"
            else:
                plane["kind"] = "aeroplane"
                plane["model"] = yield from self._value(("aircraft", "model"), "model of the aeroplane", must=True)
                plane["kinds of operation"] = yield from self._listed(
                    ("aircraft", "kinds of operation"), "what it is flown in", "day VFR, night VFR", must=True
                )
                name = yield from self._value(("aircraft", "datum"), "name of the datum of its weight record", "firewall", must=True)
                where = yield from self._value(("aircraft", "datums", name, "where"), "where that datum is", "front face of the firewall", must=True)
                plane["datums"] = {name: {"where": where}}
        for key, asks_for in (
            ("serial number", "its serial number, from the data plate"),
            ("registration", "its registration"),
            ("owner", "its owner"),
        ):
            answer = yield from self._value(("aircraft", key), asks_for)
            if answer:
                plane[key] = answer
        said["aircraft"] = plane

    def _record(self, said: dict[str, Any]) -> Asking:
        datums = self._datums(said)
        record = {
            "title": (yield from self._value(("aircraft", "weight record", "1", "title"), "title of the last weighing report", must=True)),
            "date": (yield from self._value(("aircraft", "weight record", "1", "date"), "its date", must=True)),
            "datum": (yield from self._choice("the datum its arm or moment is told from", "aircraft / weight record", datums)),
            "oil": (yield from self._choice("whether full oil is in that weight", "aircraft / weight record", ["in", "drained"])),
        }
        said["aircraft"] = said["aircraft"] | {"weight record": [record]}

    def _equipment(self, said: dict[str, Any]) -> Asking:
        entries = self._entries("equipment")
        if not entries or said.get("equipment") or "from" in said:
            return
        chosen = yield from self._listed(("equipment",), f"which items of the catalogue are fitted ({', '.join(entries)})", entries[0], known=entries)
        items = {}
        for number, entry in enumerate(chosen, 1):
            name = yield from self._value(("equipment",), f"what {entry} is called in the papers", proposed=entry.replace("_", " "), must=True)
            items[name] = {"from": f"equipment/{entry}", "item number": str(number)}
        if items:
            said["equipment"] = items

    def _entries(self, kind: str) -> list[str]:
        folder = self.file.absolute().parent.parent / kind
        return sorted(path.stem for path in folder.glob("*.yaml")) if folder.is_dir() else []

    def _datums(self, said: dict[str, Any]) -> list[str]:
        plane = said["aircraft"]
        told_here = plane.get("datums")
        if told_here:
            return list(told_here)
        source = said["from"] if "from" in said else plane["from"]
        taken = Catalogue(self.file.absolute().parent.parent).resolve(compose(f"from: {source}", self.file.name))
        return [name for name, _ in taken.at(("aircraft", "datums") if "from" in said else ("datums",)).children()]

    # --- what the findings ask for ------------------------------------------------------------------------------------

    def _facts(self) -> Asking:
        done: set[tuple[str, ...]] = set()
        asked: list[Ask] = []
        while True:
            open_ = [one for one in asks(assess(self._job(), remedies=False)) if one.path not in done]
            if not open_:
                return tuple(one for one in asks(assess(self._job(), remedies=False)))
            at = 0
            while at < len(open_):
                one = open_[at]
                try:
                    yield from self._fact(one)
                except GoBack:
                    if at == 0 and asked:
                        open_.insert(0, asked.pop())
                    at = max(at - 1, 0)
                    continue
                done.add(one.path)
                asked.append(one)
                at += 1

    def _fact(self, one: Ask) -> Asking:
        _, key = field_at(Document, one.path)
        about = f"{one.place}: {' / '.join(one.path)}" if one.blank else " / ".join(one.path)
        told_first = ""
        while True:
            try:
                text = yield from self._told(one.path, key, one.what, about, one.like, one.now, told_first)
                if text is not None:
                    beside = yield from self._beside(one.path, about)
                    self._enter([*beside, (one.path, text)])
            except QuantityError as error:
                told_first = f"{error.wrong} {error.right}"
            except CannotEnter as why:
                told_first = f"It has no place in the job file: {why}. Write it there by hand."
                yield Question("go on with an empty answer", about, told=told_first)
                return
            except JobError as error:
                told_first = " ".join(f"{fault.wrong} {fault.right}" for fault in error.faults)
            else:
                return

    def _beside(self, path: tuple[str, ...], about: str) -> Asking:
        """What the part round a key cannot be read without, where that part is not described yet: the datum of a position."""
        holder, _ = field_at(Document, path)
        around = path[:-1]
        if holder is None or holder is Document or self._job().said.find(around) is not None:
            return []
        found = []
        for key in holder.KEYS.values():
            if key.default is REQUIRED and key.spoken != path[-1]:
                answer = yield from self._put(
                    Question(key.description, f"{about} / {key.spoken}", _example(how_written(key)), self._who.get(key.spoken, ""), must=True)
                )
                self._who[key.spoken] = answer
                found.append(((*around, key.spoken), quoted(answer)))
        return found

    def _told(self, path: tuple[str, ...], key: Key | None, what: str, about: str, like: str, now: str, first: str) -> Asking:
        """The text for the job file, or None for later."""
        kind = written_at(path)
        stated = f"so far it is merely stated: {now}" if now else ""
        if typing.get_origin(kind) is typing.Literal:
            names = [str(name) for name in typing.get_args(kind)]
            answer = yield from self._put(Question(what, about, " or ".join(names), told=first or stated))
            if answer and answer not in names:
                raise QuantityError(f'"{answer}" is not known here.', one_of(answer, names))
            return quoted(answer) if answer else None
        if isinstance(kind, type) and issubclass(kind, Part):
            return (yield from self._part(path, kind, what, about, first))
        if typing.get_origin(kind) is dict:
            name = yield from self._put(Question(f"{what}; name one", about, "a name", told=first))
            inner = bare(typing.get_args(kind)[1])
            if not name:
                return None
            return f"{{{quoted(name)}: {(yield from self._required((*path, name), inner, about))}}}"
        if typing.get_origin(kind) is tuple:
            inner = bare(typing.get_args(kind)[0])
            if isinstance(inner, type) and issubclass(inner, Part):
                one = yield from self._part((*path, "1"), inner, what, about, first)
                return f"[{one}]" if one else None
            answer = yield from self._put(Question(what, about, "one, another", told=first or stated))
            return f"[{', '.join(quoted(word.strip()) for word in answer.split(','))}]" if answer else None
        spelt = how_written(key)
        answer = yield from self._put(Question(what, about, like or _example(spelt), told=first or stated))
        if not answer:
            return None
        (spelt.reading if isinstance(spelt, Written) else spelt.told if spelt else str)(answer)
        if not isinstance(spelt, Written) or (key is not None and key.extra.get("chosen")):
            return quoted(answer)
        return (yield from self._grounded(answer, about))

    def _part(self, path: tuple[str, ...], kind: type[Part], what: str, about: str, first: str) -> Asking:
        """A part is begun with what it cannot be read without; the rest of it is asked next, since findings then ask for it."""
        may_be_none = NONE in {key.spoken for key in kind.KEYS.values()}
        answer = yield from self._put(Question(f"{what}; describe it now?", about, f"yes{f', or {NONE}' if may_be_none else ''}", told=first))
        if not answer:
            return None
        if answer == NONE and may_be_none:
            reason = yield from self._put(Question("why there is none", about, "a reason", must=True))
            return f"{{none: {quoted(reason)}}}"
        return (yield from self._required(path, kind, about))

    def _required(self, path: tuple[str, ...], kind: Any, about: str) -> Asking:
        words = []
        if not (isinstance(kind, type) and issubclass(kind, Part)):
            value = yield from self._put(Question("its value", about, must=True))
            return quoted(value)
        for key in kind.KEYS.values():
            if key.default is REQUIRED:
                inner = bare(key.annotation)
                if isinstance(inner, type) and issubclass(inner, Part):
                    words.append(f"{key.spoken}: {(yield from self._required((*path, key.spoken), inner, f'{about} / {key.spoken}'))}")
                    continue
                answer = yield from self._put(Question(key.description, f"{about} / {key.spoken}", _example(how_written(key)), must=True))
                many = typing.get_origin(inner) is tuple
                words.append(f"{key.spoken}: {f'[{answer}]' if many else quoted(answer)}")
        if not words:
            # Something has to stand in it: the first thing that is asked of it.
            for key in kind.KEYS.values():
                if "measure" in key.extra:
                    text = yield from self._told((*path, key.spoken), key, key.extra["measure"], f"{about} / {key.spoken}", "", "", "")
                    if text is not None:
                        words.append(f"{key.spoken}: {text}")
                        break
        if not words:
            raise GoBack
        return f"{{{', '.join(words)}}}"

    def _grounded(self, value: str, about: str) -> Asking:
        ground = yield from self._choice("what the value rests on", about, list(GROUNDS), proposed=self._who.get("ground", ""))
        self._who["ground"] = ground
        if ground == STATED:
            return quoted(value)
        if ground == MEASURED:
            parts = {}
            for name, asks_for, proposed in (("by", "who measured it", ""), ("date", "on which day", self.today), ("instrument", "with what", "")):
                parts[name] = yield from self._put(Question(asks_for, about, proposed=self._who.get(name, proposed), must=True))
                self._who[name] = parts[name]
            inside = ", ".join(f"{name}: {quoted(word)}" for name, word in parts.items())
            return f"{{value: {quoted(value)}, measured: {{{inside}}}}}"
        if ground == NAMEPLATE:
            plate = yield from self._put(Question("which plate, tag or marking", about, must=True))
            return f"{{value: {quoted(value)}, nameplate: {quoted(plate)}}}"
        told_by = {}
        for name, asks_for, must in (("number", "number of the document", True), ("revision", "its revision", False), ("page", "the page", False)):
            told_by[name] = yield from self._put(
                Question(asks_for, about, proposed=self._who.get(f"document {name}", "") if name != "page" else "", must=must)
            )
            self._who[f"document {name}"] = told_by[name]
        inside = ", ".join(f"{name}: {quoted(word)}" for name, word in told_by.items() if word)
        return f"{{value: {quoted(value)}, document: {{{inside}}}}}"

    # --- single questions -----------------------------------------------------------------------------------------

    def _put(self, question: Question) -> Asking:
        """One question until it has an answer that may stand; back goes to the one before."""
        while True:
            answer = (yield question).strip()
            if answer == BACK:
                raise GoBack
            if answer == EXPLAIN:
                question = question._replace(
                    told=f"Written {question.like or 'in words'}. Empty: later. {BACK}: the question before. {STOP}: end for now."
                )
                continue
            answer = answer or question.proposed
            if not answer and question.must:
                question = question._replace(told="The job cannot be read without it.")
                continue
            return answer

    def _value(self, path: tuple[str, ...], asks_for: str, like: str = "", *, proposed: str = "", must: bool = False) -> Asking:
        """A word, a date or a mark, as its key takes it."""
        _, key = field_at(Document, path)
        spelt = how_written(key)
        question = Question(asks_for, " / ".join(path), like, proposed, must=must)
        while True:
            answer = yield from self._put(question)
            try:
                if answer and spelt is not None and not isinstance(spelt, Written):
                    spelt.told(answer)
            except QuantityError as error:
                question = question._replace(told=f"{error.wrong} {error.right}")
                continue
            return answer

    def _choice(self, asks_for: str, about: str, names: list[str], *, proposed: str = "") -> Asking:
        question = Question(asks_for, about, " or ".join(names), proposed, must=True)
        while True:
            answer = yield from self._put(question)
            if answer in names:
                return answer
            question = question._replace(told=one_of(answer, names))

    def _listed(self, path: tuple[str, ...], asks_for: str, like: str, *, known: list[str] | None = None, must: bool = False) -> Asking:
        question = Question(asks_for, " / ".join(path), like, must=must)
        while True:
            answer = yield from self._put(question)
            words = [word.strip() for word in answer.split(",") if word.strip()]
            strange = next((word for word in words if known is not None and word not in known), None)
            if strange is None:
                return words
            question = question._replace(told=f'There is no "{strange}". {one_of(strange, known or ())}')

    # --- the file ---------------------------------------------------------------------------------------------------

    def _job(self) -> Any:
        return told(read_file(self.file, self.file.name), self.file)

    def _enter(self, values: list[tuple[tuple[str, ...], str]]) -> None:
        def changed(before: bytes | None) -> bytes:
            job = entered((before or b"").decode("utf-8"), values)
            gather(told(job, self.file))
            return job.encode("utf-8")

        rewrite(self.file, changed)


def _example(spelt: Spelt | None) -> str:
    return spelt.example if isinstance(spelt, Written) else ""
