"""A job made by questions: first what a file cannot be read without, then whatever its findings ask for, one thing at a time.

The job file is the only memory. It is written anew after each answer, so the interview may be left at any question and taken
up again: what is still missing is asked, and nothing else.
"""

from __future__ import annotations

import typing
from collections.abc import Callable, Collection, Generator
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
RESTING: Final = "what the value rests on"
RESTS_ON: Final = "rests on"
"""Behind the name of a part: what all of it rests on."""
LEAVE = "later"
"""What may be answered where an empty answer will not do: the whole part is left."""
NOT_WITHOUT: Final = "The job cannot be read without it."
SAME = "="
"""What may be answered where a value rests on what the one before rests on."""

MEASURED, DOCUMENT, NAMEPLATE, STATED = "measured", "document", "nameplate", "stated"
GROUNDS: Final = (MEASURED, DOCUMENT, NAMEPLATE, STATED)


class AtOnce(NamedTuple):
    """What a value rests on, told in one answer: its keys in order, how many must be there, and an example."""

    keys: tuple[str, ...]
    least: int
    like: str


AT_ONCE: Final = {
    MEASURED: AtOnce(("by", "date", "instrument", "calibration due"), 3, "measured R. Voe, 2026-11-20, scale S-3, 2027-04-30"),
    DOCUMENT: AtOnce(("number", "revision", "page"), 1, "document FM-2, 3, 6-3"),
    NAMEPLATE: AtOnce((), 1, "nameplate plate on the left side"),
}


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


class LeaveIt(Exception):
    """Leave what is asked for, and the part around it, for later."""


@dataclass
class Interview:
    """The interview about one job file."""

    file: Path
    today: str
    like: Path | None = None
    _who: dict[str, str] = field(default_factory=dict)
    _resting: dict[tuple[str, ...], str] = field(default_factory=dict)
    """What the values of each part that is being begun rest on, as it stands in the job file."""
    _last: tuple[str, str] | None = None
    """What the last value rests on, in words and as it stands in the job file."""

    def questions(self) -> Asking:
        """The whole of it, until nothing is asked any more. It returns what has to be described in the job file by hand."""
        if not self.file.exists():
            yield from self._head()
        return (yield from self._facts())

    def name(self, key: str, answers: list[str]) -> str:
        """Enter what somebody says of a key that no question asked for.

        Args:
            key: the key, its parts parted by " / "; "rests on" at its end says what a part rests on.
            answers: the value, and what it rests on where that is said for it alone.

        Returns:
            Why it is not entered; nothing where it is.
        """
        *around, last = key.split(" / ")
        path = (*around, last)
        try:
            if last == RESTS_ON:
                ground, _, text = _at_once(answers[0]).partition(": ")
                self._enter([*self._with_datum(tuple(around)), ((*around, ground), text)])
            elif answers[0] == NONE and len(answers) > 1:
                self._enter([(path, f"{{none: {quoted(answers[1])}}}")])
            else:
                self._enter([*self._with_datum(tuple(around)), (path, _value_at(path, answers))])
        except QuantityError as error:
            return f"{error.wrong} {error.right}"
        except CannotEnter as why:
            return f"It has no place in the job file: {why}."
        except JobError as error:
            return " ".join(f"{fault.wrong} {fault.right}" for fault in error.faults[:1])
        return ""

    def _with_datum(self, around: tuple[str, ...]) -> list[tuple[tuple[str, ...], str]]:
        """The datum of a part that cannot be read without one and is not there yet, where the aircraft has no other."""
        kind, known = written_at(around), self._known_datums()
        if len(known) != 1 or not (isinstance(kind, type) and issubclass(kind, Part)) or self._job().said.find((*around, "datum")) is not None:
            return []
        needs = any(key.spoken == "datum" and key.default is REQUIRED for key in kind.KEYS.values())
        return [((*around, "datum"), quoted(known[0]))] if needs else []

    # --- what a file cannot be read without -------------------------------------------------------------------------

    def _head(self) -> Asking:
        said: dict[str, Any] = {"liftout": LANGUAGE}
        if self.like is not None:
            text = read_file(self.like, self.like.name)
            like, _ = unset(compose(text, self.like.name).plain())
            assert isinstance(like, dict)
            said |= {key: value for key, value in like.items() if key != "liftout"}
        steps = [self._papers, self._kit, self._airframe, self._record, self._equipment]
        given: list[list[str]] = [[] for _ in steps]
        at = 0
        while at < len(steps):
            try:
                yield from _retraced(steps[at], said, given[at])
            except GoBack:
                at = next((before for before in range(at - 1, -1, -1) if given[before]), 0)
                del given[at][-1:]
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
        papers["revisions"] = [
            {
                "revision": papers["revision"],
                "date": papers["date"],
                "reason": (yield from self._value(("papers", "revisions", "1", "reason"), "why it is made", proposed="first issue", must=True)),
            }
        ]
        face = self._face()
        if not face:
            papers["shop"] = yield from self._value(("papers", "shop"), "the shop that makes them", proposed=str(papers.get("shop", "")), must=True)
        elif "shop" not in said:
            # Another shop's name, address and approval number would stand on every page of a docket.
            shop = yield from self._value(("shop", "name"), f"the shop that makes them; {SHOP} beside the catalogue names this one", proposed=face)
            said |= {"shop": {"name": shop}} if shop != face else {}
        customer = yield from self._value(("papers", "customer"), "for whom the papers are")
        said["papers"] = papers | ({"customer": customer} if customer else {})

    def _face(self) -> str:
        """The shop that stands on the papers of this folder; empty where none does."""
        file = self.file.absolute().parent.parent / SHOP
        if not file.exists():
            return ""
        name = dict(compose(read_file(file, SHOP), SHOP).children()).get("name")
        return str(name.value) if name is not None and name.value else ""

    def _kit(self, said: dict[str, Any]) -> Asking:
        """A type kit says what sister ships share; who takes one over is asked for what is the aircraft's own."""
        kits = self._entries("kits")
        if self.like is None and kits:
            said.pop("from", None)
            chosen = yield from self._choice("which kit of the catalogue it takes over", "from", [*kits, NONE])
            if chosen != NONE:
                said["from"] = f"kits/{chosen}"

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
                path = ("aircraft", "kinds of operation")
                plane["kinds of operation"] = yield from self._listed(path, "what it is flown in", known=_words(path), must=True)
                name = yield from self._value(("aircraft", "datums"), "name of the datum of its weight record", "firewall", must=True)
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
        first = ("aircraft", "weight record", "1")
        record = {
            "title": (yield from self._value((*first, "title"), "title of the last weighing report", must=True)),
            "date": (yield from self._value((*first, "date"), "its date", must=True)),
            "datum": (yield from self._choice("the datum its arm or moment is measured from", " / ".join((*first, "datum")), datums)),
            "oil": (yield from self._choice("whether full oil is in that weight", " / ".join((*first, "oil")), ["in", "drained"])),
        }
        record_ = [record]
        titles = yield from self._listed(first[:2], "titles of the sheets that changed it since, oldest first, parted by commas")
        for number, title in enumerate(titles, 2):
            date = yield from self._value((*first[:2], str(number), "date"), f"date of {title}", must=True)
            record_.append(record | {"title": title, "date": date})
        said["aircraft"] = said["aircraft"] | {"weight record": record_}

    def _equipment(self, said: dict[str, Any]) -> Asking:
        entries = self._entries("equipment")
        if said.get("equipment") or "from" in said:
            return
        items: dict[str, dict[str, str]] = {}
        if entries:
            for entry in (yield from self._listed(("equipment",), "which items of the catalogue are fitted", known=entries)):
                name = yield from self._value(("equipment",), f"what {entry} is called in the papers", proposed=entry.replace("_", " "), must=True)
                items[name] = {"from": f"equipment/{entry}", "item number": str(len(items) + 1)}
        asks_for = "names of further items, parted by commas: what the catalogue does not have, and what stays in the aircraft"
        for name in (yield from self._listed(("equipment",), asks_for)):
            what = yield from self._value(("equipment", name, "description"), f"what {name} is", must=True)
            stays = yield from self._choice(f"whether {name} lifts out or stays", f"equipment / {name} / stays", _words(("equipment", name, "stays")))
            items.setdefault(name, {"description": what, "item number": str(len(items) + 1), "stays": stays})
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
                except LeaveIt:
                    done.add(one.path)
                    at += 1
                    continue
                done.add(one.path)
                asked.append(one)
                at += 1
                if not one.blank:
                    # What a part was begun with asks for the rest of it: now, while the paper lies open at that page.
                    known = {*done, *(each.path for each in open_)}
                    kind = written_at(one.path)
                    part = one.path if typing.get_origin(kind) is dict or (isinstance(kind, type) and issubclass(kind, Part)) else one.path[:-1]
                    rest = [each for each in asks(assess(self._job(), remedies=False)) if part and each.path[: len(part)] == part]
                    open_[at:at] = [each for each in rest if each.path not in known]

    def _fact(self, one: Ask) -> Asking:
        _, key = field_at(Document, one.path)
        about = f"{one.place}: {' / '.join(one.path)}" if one.blank else " / ".join(one.path)
        told_first = ""
        self._resting.clear()
        if self._declined(one.path):
            return
        kind, said = written_at(one.path), self._job().said.find(one.path)
        here = dict(said.children()) if said is not None else {}
        if here and isinstance(kind, type) and issubclass(kind, Part):
            yield from self._rest(one, kind, here)
            return
        while True:
            try:
                text = yield from self._told(one.path, key, one.what, about, one.like, one.now, told_first)
                if text == NONE:
                    reason = yield from self._put(Question("why there is none", " / ".join(one.path[:-1]), "a reason", must=True))
                    beside = yield from self._beside(one.path[:-1])
                    self._enter([*beside, (one.path[:-1], f"{{none: {quoted(reason)}}}")])
                elif text is not None and here:
                    # More of what a group holds already; what stands there stays.
                    more = compose(f"more: {text}", "more").at(("more",)).children()
                    self._enter([((*one.path, name), _flow(node.plain())) for name, node in more if name not in here])
                elif text is not None:
                    beside = yield from self._beside(one.path)
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

    def _rest(self, one: Ask, kind: type[Part], here: Collection[str]) -> Asking:
        """What a part that is there already does not say; what it says stays."""
        for key in kind.KEYS.values():
            group = typing.get_origin(bare(key.annotation)) is dict
            if key.spoken not in here and ("measure" in key.extra or group):
                what = str(key.extra.get("measure", key.description))
                yield from self._fact(Ask(one.place, (*one.path, key.spoken), what, _example(how_written(key)), "", ""))

    def _beside(self, path: tuple[str, ...]) -> Asking:
        """What the part round a key cannot be read without, where that part is not described yet: the datum of a position."""
        holder, _ = field_at(Document, path)
        around = path[:-1]
        if holder is None or holder is Document or self._job().said.find(around) is not None:
            return []
        found = []
        if around in self._resting:
            ground, _, told_ = self._resting[around].partition(": ")
            found.append(((*around, ground), told_))
        for key in holder.KEYS.values():
            if key.default is REQUIRED and key.spoken != path[-1]:
                text = yield from self._needed((*around, key.spoken), key, " / ".join((*around, key.spoken)))
                found.append(((*around, key.spoken), text))
        return found

    def _told(self, path: tuple[str, ...], key: Key | None, what: str, about: str, like: str, now: str, first: str) -> Asking:
        """The text for the job file, or None for later."""
        kind = written_at(path)
        stated = f"so far it is merely stated: {now}" if now else ""
        if typing.get_origin(kind) is typing.Literal:
            return (yield from self._word(path, [str(name) for name in typing.get_args(kind)], what, about, first, stated))
        if isinstance(kind, type) and issubclass(kind, Part):
            return (yield from self._part(path, kind, what, about, first))
        if typing.get_origin(kind) is dict:
            answer = yield from self._put(Question(f"{what}; name them all", about, "one, another", told=first))
            return (yield from self._group(path, kind, answer, about)) if answer else None
        if typing.get_origin(kind) is tuple:
            inner = bare(typing.get_args(kind)[0])
            if isinstance(inner, type) and issubclass(inner, Part):
                if _cells(inner):
                    answer = yield from self._put(Question(f"{what}; each with its figures", about, _as_rows(inner), told=first))
                    return _rows(inner, answer) if answer else None
                one = yield from self._part((*path, "1"), inner, what, about, first)
                return f"[{one}]" if one else None
            known = _words(path)
            answer = yield from self._put(Question(what, about, f"some of: {', '.join(known)}" if known else "one, another", told=first or stated))
            words = _parted(answer)
            strange = next((word for word in words if known and word not in known), None)
            if strange is not None:
                raise QuantityError(f'"{strange}" is not known here.', one_of(strange, known, "some"))
            return f"[{', '.join(map(quoted, words))}]" if words else None
        spelt = how_written(key)
        declined = self._may_be_declined(path)
        shown = ", or ".join(filter(None, (like or _example(spelt), NONE if declined else "")))
        answer = yield from self._put(Question(what, about, shown, told=first or stated))
        if not answer:
            return None
        if answer == NONE and declined:
            return NONE
        (spelt.reading if isinstance(spelt, Written) else spelt.told if spelt else str)(answer)
        yield from self._begin(path)
        if not isinstance(spelt, Written) or (key is not None and key.extra.get("chosen")) or self._rests(path):
            return quoted(answer)
        return (yield from self._grounded(answer, about))

    def _word(self, path: tuple[str, ...], names: list[str], what: str, about: str, first: str, stated: str) -> Asking:
        """One of a few words. It holds no evidence of its own; where it is merely stated, that of its part is taken for an answer."""
        taken = sorted({node.file for _, node in self._job().said.at(path[:-1]).children()} - {self.file.name}) if stated else []
        if taken:
            # Evidence for the part, said here, would be no evidence for what its catalogue entry says, and take that of the entry away.
            stated += f". A word rests on what is said for its part, and that comes from {', '.join(taken)}: write the word there"
        elif stated:
            stated += f". A word rests on what is said for its part, {' / '.join(path[:-1])}; say that, with all bare values in it: "
            stated += f"{AT_ONCE[MEASURED].like}; {AT_ONCE[DOCUMENT].like}"
        answer = yield from self._put(Question(what, about, " or ".join(names), told=first or stated))
        if stated and not taken and " " in answer and answer.split(" ", 1)[0] in AT_ONCE:
            ground, _, text = _at_once(answer).partition(": ")
            self._enter([((*path[:-1], ground), text)])
            return None
        if answer and answer not in names:
            raise QuantityError(f'"{answer}" is not known here.', one_of(answer, names))
        if not answer:
            return None
        yield from self._begin(path)
        return quoted(answer)

    def _begin(self, path: tuple[str, ...]) -> Asking:
        """What the part around a key rests on, where the key is the first that is said of it."""
        around, holder = path[:-1], written_at(path[:-1])
        if around and isinstance(holder, type) and issubclass(holder, Part) and self._job().said.find(around) is None:
            yield from self._together(around, holder, " / ".join(around))

    def _declined(self, path: tuple[str, ...]) -> bool:
        """Whether a part around a key was declined meanwhile."""
        said = self._job().said
        return any(said.find((*path[:end], NONE)) is not None for end in range(1, len(path)))

    def _may_be_declined(self, path: tuple[str, ...]) -> bool:
        """Whether the part that a key stands in may be declined: one that takes none with a reason, and of which nothing is said yet."""
        kind = written_at(path[:-1])
        may = len(path) > 2 and isinstance(kind, type) and issubclass(kind, Part) and NONE in {key.spoken for key in kind.KEYS.values()}
        return may and self._job().said.find(path[:-1]) is None

    def _part(self, path: tuple[str, ...], kind: type[Part], what: str, about: str, first: str) -> Asking:
        """A part is begun with what it cannot be read without; the rest of it is asked next, since findings then ask for it."""
        may_be_none = NONE in {key.spoken for key in kind.KEYS.values()}
        answer = yield from self._put(Question(f"{what}; describe it now?", about, f"yes{f', or {NONE}' if may_be_none else ''}", told=first))
        if not answer or answer == "no":
            return None
        if answer != "yes" and not (answer == NONE and may_be_none):
            raise QuantityError(f'"{answer}" is no answer.', f"Write yes{f', or {NONE}' if may_be_none else ''}, or nothing for later.")
        if answer == NONE:
            reason = yield from self._put(Question("why there is none", about, "a reason", must=True))
            return f"{{none: {quoted(reason)}}}"
        return (yield from self._required(path, kind, about))

    def _required(self, path: tuple[str, ...], kind: Any, about: str) -> Asking:
        words = []
        if not (isinstance(kind, type) and issubclass(kind, Part)):
            value = yield from self._put(Question("its value", about, must=True))
            return quoted(value)
        yield from self._together(path, kind, about)
        for key in kind.KEYS.values():
            if key.default is REQUIRED:
                inner = bare(key.annotation)
                if isinstance(inner, type) and issubclass(inner, Part):
                    words.append(f"{key.spoken}: {(yield from self._required((*path, key.spoken), inner, f'{about} / {key.spoken}'))}")
                    continue
                words.append(f"{key.spoken}: {(yield from self._needed((*path, key.spoken), key, f'{about} / {key.spoken}'))}")
        if not words:
            # Something has to stand in it: the first thing that is asked of it, or what it holds by name.
            for key in kind.KEYS.values():
                group = typing.get_origin(bare(key.annotation)) is dict
                if "measure" in key.extra or group:
                    what = str(key.extra.get("measure", key.description))
                    text = yield from self._told((*path, key.spoken), key, what, f"{about} / {key.spoken}", "", "", "")
                    if text is not None:
                        words.append(f"{key.spoken}: {text}")
                        break
        if not words:
            raise QuantityError("Nothing was said of it.", "Say one thing, or leave the part for later.")
        return f"{{{', '.join([*([self._resting[path]] if path in self._resting else []), *words])}}}"

    def _together(self, path: tuple[str, ...], kind: type[Part], about: str) -> Asking:
        """What all values of a part rest on, where that is one thing; asked where the part is begun."""
        if not {*AT_ONCE} <= {key.spoken for key in kind.KEYS.values()} or self._rests((*path, "")):
            return
        examples = f"{AT_ONCE[MEASURED].like}; {AT_ONCE[DOCUMENT].like}; empty: each value says its own"
        question = Question("what all of it rests on, where that is one thing", f"{about} / {RESTS_ON}", examples)
        while True:
            answer = yield from self._put(question)
            if not answer:
                return
            try:
                self._resting[path] = _at_once(answer)
            except QuantityError as error:
                question = question._replace(told=f"{error.wrong} {error.right}")
                continue
            return

    def _rests(self, path: tuple[str, ...]) -> bool:
        """Whether the job file says for a part around a key what its bare values rest on."""
        if any(path[:end] in self._resting for end in range(1, len(path))):
            return True
        said = compose(read_file(self.file, self.file.name), self.file.name)
        around = [said.find(path[:end]) for end in range(1, len(path))]
        return any(key in AT_ONCE for part in around if part is not None for key, _ in part.children())

    def _group(self, path: tuple[str, ...], kind: Any, answer: str, about: str) -> Asking:
        """Several things by their names, each with what it cannot be read without."""
        inner = bare(typing.get_args(kind)[1])
        entries = []
        for name in dict.fromkeys(_parted(answer)):
            text = yield from self._required((*path, name), inner, f"{about} / {name}")
            entries.append(f"{quoted(name)}: {text}")
        return f"{{{', '.join(entries)}}}"

    def _needed(self, path: tuple[str, ...], key: Key, about: str) -> Asking:
        """What a part cannot be read without, tried before it is taken: a wrong one is asked again, and nothing else with it."""
        kind, spelt = bare(key.annotation), how_written(key)
        known = self._known_datums() if path[-1] == "datum" else _words(path)
        many = typing.get_origin(kind) is tuple
        if path[-1] == "datum" and len(known) == 1:
            return quoted(known[0])
        inner = bare(typing.get_args(kind)[0]) if many else None
        if isinstance(inner, type) and issubclass(inner, Part):
            question = Question(key.description, about, _as_rows(inner), must=True)
            while True:
                try:
                    return _rows(inner, (yield from self._put(question)))
                except QuantityError as error:
                    question = question._replace(told=f"{error.wrong} {error.right}")
        joined = f"some of: {', '.join(known)}" if many else " or ".join(known)
        question = Question(key.description, about, joined or _example(spelt), self._who.get(path[-1], ""), must=True)
        while True:
            answer = yield from self._put(question)
            words = _parted(answer) if many else [answer]
            strange = next((word for word in words if known and word not in known), None)
            if strange is not None:
                question = question._replace(told=f'"{strange}" is not known here. {one_of(strange, known)}')
                continue
            try:
                if not many and spelt is not None:
                    (spelt.reading if isinstance(spelt, Written) else spelt.told)(answer)
            except QuantityError as error:
                question = question._replace(told=f"{error.wrong} {error.right}")
                continue
            if path[-1] == "datum":
                self._who[path[-1]] = answer
            return f"[{', '.join(map(quoted, words))}]" if many else quoted(answer)

    def _known_datums(self) -> list[str]:
        aircraft = dict(self._job().said.children()).get("aircraft")
        datums = dict(aircraft.children()).get("datums") if aircraft is not None else None
        return [name for name, _ in datums.children()] if datums is not None else []

    def _grounded(self, value: str, about: str) -> Asking:
        again = f". {SAME} as before: {self._last[0]}" if self._last else ""
        names = [*GROUNDS, *([SAME] if self._last else [])]
        question = Question(f"{RESTING}{again}", about, " or ".join(names), self._who.get("ground", ""), must=True)
        while True:
            ground = yield from self._put(question)
            if ground in names or ground.split(" ", 1)[0] in AT_ONCE:
                break
            question = question._replace(told=f"{one_of(ground, names)} Or all at once: {AT_ONCE[MEASURED].like}; {AT_ONCE[DOCUMENT].like}.")
        if ground == STATED:
            return quoted(value)
        if ground in GROUNDS:
            self._who["ground"] = ground
            self._last = yield from self._ground(ground, about)
        elif ground != SAME or self._last is None:
            self._last = ground, _at_once(ground)
        return f"{{value: {quoted(value)}, {self._last[1]}}}"

    def _ground(self, ground: str, about: str) -> Asking:
        """What a value rests on: in words, and as it stands in the job file."""
        if ground == MEASURED:
            parts = {}
            for name, asks_for, proposed in (("by", "who measured it", ""), ("date", "on which day", self.today), ("instrument", "with what", "")):
                parts[name] = yield from self._put(Question(asks_for, about, proposed=self._who.get(name, proposed), must=True))
                self._who[name] = parts[name]
            inside = ", ".join(f"{name}: {quoted(word)}" for name, word in parts.items())
            return ", ".join((MEASURED, *parts.values())), f"measured: {{{inside}}}"
        if ground == NAMEPLATE:
            plate = yield from self._put(Question("which plate, tag or marking", about, must=True))
            return f"{NAMEPLATE}, {plate}", f"nameplate: {quoted(plate)}"
        told_by = {}
        for name, asks_for, must in (("number", "number of the document", True), ("revision", "its revision", False), ("page", "the page", False)):
            told_by[name] = yield from self._put(
                Question(asks_for, about, proposed=self._who.get(f"document {name}", "") if name != "page" else "", must=must)
            )
            self._who[f"document {name}"] = told_by[name]
        inside = ", ".join(f"{name}: {quoted(word)}" for name, word in told_by.items() if word)
        return " ".join((DOCUMENT, *filter(None, told_by.values()))), f"document: {{{inside}}}"

    # --- single questions -----------------------------------------------------------------------------------------

    def _put(self, question: Question) -> Asking:
        """One question until it has an answer that may stand; back goes to the one before."""
        while True:
            answer = (yield question).strip()
            if answer == BACK:
                raise GoBack
            if answer == EXPLAIN:
                question = question._replace(
                    told=f"Written {question.like or 'in words'}. Empty, or {LEAVE}: later. {BACK}: the question before. {STOP}: end for now."
                )
                continue
            answer = answer or question.proposed
            if answer == LEAVE and question.must and self.file.exists():
                raise LeaveIt
            if answer in ("", LEAVE) and question.must:
                question = question._replace(told=NOT_WITHOUT)
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

    def _listed(self, path: tuple[str, ...], asks_for: str, *, known: list[str] | None = None, must: bool = False) -> Asking:
        question = Question(asks_for, " / ".join(path), f"some of: {', '.join(known)}" if known else "one, another", must=must)
        while True:
            words = _parted((yield from self._put(question)))
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


def _at_once(answer: str) -> str:
    """What a value rests on, told in one answer, as it stands in the job file.

    Raises:
        QuantityError: when something of it is missing, or there is too much.
    """
    ground, _, rest = answer.partition(" ")
    if ground not in AT_ONCE or not rest.strip():
        raise QuantityError(f'"{answer}" does not say what it rests on.', f"Write {AT_ONCE[MEASURED].like}; or {AT_ONCE[DOCUMENT].like}.")
    keys, least, like = AT_ONCE[ground]
    if not keys:
        return f"{ground}: {quoted(rest.strip())}"
    words = [word.strip() for word in rest.split(",")]
    if not all(words[:least]) or not least <= len(words) <= len(keys):
        raise QuantityError(f'"{answer}" does not say what it rests on.', f"Write {like}.")
    inside = ", ".join(f"{key}: {quoted(word)}" for key, word in zip(keys, words, strict=False) if word)
    return f"{ground}: {{{inside}}}"


def _value_at(path: tuple[str, ...], answers: list[str]) -> str:
    """A value as it stands in the job file: one, or several parted by commas, with what it rests on.

    Raises:
        QuantityError: when nothing of the kind can stand there.
    """
    kind = written_at(path)
    if kind is None:
        raise QuantityError("There is no such key.", "Look it up in the handbook, page Job file.")
    if typing.get_origin(kind) is tuple:
        inner = bare(typing.get_args(kind)[0])
        if isinstance(inner, type) and issubclass(inner, Part):
            return _rows(inner, answers[0])
        return f"[{', '.join(map(quoted, _parted(answers[0])))}]"
    if typing.get_origin(kind) is dict or (isinstance(kind, type) and issubclass(kind, Part)):
        raise QuantityError("A part has keys of its own.", "Name the key in it.")
    _, key = field_at(Document, path)
    spelt = how_written(key)
    if isinstance(spelt, Written):
        spelt.reading(answers[0])
        if len(answers) > 1:
            return f"{{value: {quoted(answers[0])}, {_at_once(answers[1])}}}"
    return quoted(answers[0])


def _flow(said: object) -> str:
    """What was said, on one line."""
    if isinstance(said, dict):
        return f"{{{', '.join(f'{quoted(str(key))}: {_flow(value)}' for key, value in said.items())}}}"
    if isinstance(said, (list, tuple)):
        return f"[{', '.join(map(_flow, said))}]"
    return quoted(str(said))


def _parted(answer: str) -> list[str]:
    return [word.strip() for word in answer.split(",") if word.strip()]


def _words(path: tuple[str, ...]) -> list[str]:
    """The words that may stand at a path, one or several; none where anything may."""
    kind = written_at(path)
    if typing.get_origin(kind) is tuple:
        kind = bare(typing.get_args(kind)[0])
    return [str(name) for name in typing.get_args(kind)] if typing.get_origin(kind) is typing.Literal else []


def _cells(part: type[Part]) -> dict[str, Written]:
    """The figures of one entry of a list, by key; none where an entry cannot be told by figures alone."""
    spelt = {key.spoken: how_written(key) for key in part.KEYS.values() if key.spoken not in GROUNDS}
    figures = {name: one for name, one in spelt.items() if isinstance(one, Written) and one.dimension}
    told_else = any(key.default is REQUIRED and key.spoken not in figures for key in part.KEYS.values())
    return {} if told_else else figures


def _as_rows(part: type[Part]) -> str:
    one = ", ".join(spelt.example for spelt in list(_cells(part).values())[:2])
    return f"{one}; {one}"


def _rows(part: type[Part], answer: str) -> str:
    """Entries parted by semicolons, the figures of each by commas: each is what the first key says that can hold it.

    Raises:
        QuantityError: when a figure fits no key.
    """
    entries = []
    for row in filter(None, (one.strip() for one in answer.split(";"))):
        left = _cells(part)
        words = []
        for figure in _parted(row):
            key = next((key for key, spelt in left.items() if _reads(spelt, figure)), None)
            if key is None:
                raise QuantityError(f'"{figure}" is none of: {", ".join(left) or "nothing more"}.', f"Write {_as_rows(part)}.")
            del left[key]
            words.append(f"{key}: {quoted(figure)}")
        entries.append(f"{{{', '.join(words)}}}")
    return f"[{', '.join(entries)}]"


def _reads(spelt: Written, figure: str) -> bool:
    try:
        spelt.reading(figure)
    except QuantityError:
        return False
    return True


def _retraced(step: Callable[[dict[str, Any]], Asking], said: dict[str, Any], given: list[str]) -> Asking:
    """A step that is given again what was answered before, and asks from there; back takes back one answer.

    Args:
        step: asks one question after another, and changes nothing but what is said.
        said: what the job says so far.
        given: the answers before; those that follow are added, without those that were told to be wrong.

    Raises:
        GoBack: at its first question.
    """
    while True:
        asking, again = step(said), [*given]
        given.clear()
        answer = None
        try:
            question = next(asking)
            while True:
                answer = again.pop(0) if again else (yield question)
                if answer.strip() == BACK:
                    break
                following = asking.send(answer)
                if (following.asks, following.about) != (question.asks, question.about):
                    given.append(answer)
                question = following
        except StopIteration:
            if answer is not None:
                given.append(answer)
            return ()
        if not given:
            raise GoBack
        del given[-1:]


def _example(spelt: Spelt | None) -> str:
    return spelt.example if isinstance(spelt, Written) else ""
