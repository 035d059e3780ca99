"""What a person typed into the form of a part, as changes of the job file."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final, NamedTuple

from liftout.desk.parts import MERELY, Field, Path_, Shown, ground_keys
from liftout.job.edit import quoted
from liftout.quantities import QuantityError

SAME: Final = "same"
"""The answer that a new value rests on what the old one does, looked at again."""


class Told(NamedTuple):
    """Something wrong, or in the way: at which key, what it is, and what would be right."""

    path: Path_
    wrong: str
    right: str


class Entered(NamedTuple):
    """Changes of the job file as paths and YAML, and what keeps them from being made."""

    changes: tuple[tuple[Path_, str], ...]
    told: tuple[Told, ...]
    names: tuple[str, ...]


def entries(part: Shown, form: Mapping[str, str]) -> Entered:
    """The changes between what a part says and what was typed.

    Args:
        part: the part as it stands.
        form: what was typed, by "value:KEY", "tolerance:KEY", "rests:KEY" and "KIND.WORD:KEY" for what evidence says.
    """
    changes: list[tuple[Path_, str]] = []
    told: list[Told] = []
    names: list[str] = []
    for field in part.fields:
        if f"value:{field.name}" not in form or field.elsewhere:
            continue
        found = _changed(field, form)
        if isinstance(found, Told):
            told.append(found)
        elif found:
            changes += found
            names.append(field.name)
    kind = form.get("rests:", "")
    if part.grounded and kind in ground_keys():
        if part.ground_own and part.ground.kind != kind:
            changes.append(((*part.path, part.ground.kind), ""))
        changes.append(((*part.path, kind), _evidence(kind, "", form)))
        names.append("what it rests on")
    if part.shape.kind == "group" and form.get("new name", "").strip() and "new value" in form:
        name = " ".join(form["new name"].split())
        if any(field.name == name for field in part.fields):
            told.append(Told((*part.path, name), "is there already.", "Change it in its own field."))
        else:
            changes.append(((*part.path, name), _word(form["new value"].strip())))
            names.append(name)
    return Entered(tuple(changes), tuple(told), tuple(names))


def _changed(field: Field, form: Mapping[str, str]) -> list[tuple[Path_, str]] | Told:
    key, path = field.name, field.path
    typed = _lines(form[f"value:{key}"])
    if field.shape.kind == "values":
        return [] if typed == field.text else [(path, _listed(typed))]
    typed = " ".join(typed.split("\n"))
    tolerance = form.get(f"tolerance:{key}", field.tolerance).strip() if field.shape.tolerable else ""
    rests = form.get(f"rests:{key}", "") if field.shape.stated else ""
    if rests not in ("", SAME, MERELY, *ground_keys()):
        return Told(path, f'"{rests}" is nothing that a value rests on.', "Choose one of the list.")
    anew, apart = typed != field.text, tolerance != field.tolerance
    if not anew and not apart and rests in ("", SAME):
        return []
    if not typed:
        return [(path, "")] if field.text else Told(path, "says what it rests on, and no value.", "Write the value.")
    if anew and field.shape.reading is not None:
        # What cannot be read is told before what it would rest on: nobody measures again for a slip of the keyboard.
        try:
            field.shape.reading(typed)
        except QuantityError as error:
            return Told(path, error.wrong, error.right)
    if anew and not rests and field.rests.kind not in ("", MERELY) and field.own and not field.chosen:
        return Told(
            path,
            f'"{typed}" would stand under what the value before it rests on: {field.rests}.',
            "Say below what the new value rests on, or that it is the same, looked at again.",
        )
    if rests not in ("", SAME):
        words = [f"value: {quoted(typed)}", *([f"tolerance: {quoted(tolerance)}"] if tolerance else [])]
        return [(path, f"{{{', '.join((*words, f'{_key(rests)}: {_evidence(rests, key, form)}'))}}}")]
    if field.keyed:
        return [
            *([((*path, "value"), quoted(typed))] if anew else []),
            *([((*path, "tolerance"), _word(tolerance))] if apart else []),
        ]
    if tolerance:
        return [(path, f"{{value: {quoted(typed)}, tolerance: {quoted(tolerance)}}}")]
    return [(path, quoted(typed))]


def _key(rests: str) -> str:
    return "stated" if rests == MERELY else rests


def _evidence(kind: str, key: str, form: Mapping[str, str]) -> str:
    if kind == MERELY:
        return MERELY
    words = {word.spoken: form.get(f"{kind}.{word.spoken}:{key}", "").strip() for word in ground_keys().get(kind, ())}
    if not words:
        return _word(form.get(f"{kind}.:{key}", "").strip())
    return "{" + ", ".join(f"{word}: {quoted(text)}" for word, text in words.items() if text) + "}"


def _word(text: str) -> str:
    return quoted(text) if text else ""


def _lines(text: str) -> str:
    return "\n".join(line.strip() for line in text.replace("\r\n", "\n").split("\n") if line.strip())


def _listed(typed: str) -> str:
    return "[]" if typed in ("", "[]") else f"[{', '.join(map(quoted, typed.split(chr(10))))}]"


def comments(text: str) -> int:
    """How many comments a job file that can be read holds: a value that is replaced may not take one with it."""
    import yaml

    values = [
        event
        for event in yaml.parse(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
        if isinstance(event, yaml.ScalarEvent) and event.style
    ]
    rest, at = "", 0
    for value in values:
        assert value.start_mark is not None
        assert value.end_mark is not None
        # A block ends with its line; behind a quote nothing begins a word.
        rest += text[at : value.start_mark.index] + ("\n" if value.style in ("|", ">") else '"')
        at = value.end_mark.index
    return len(re.findall(r"(?:^|\s)#", rest + text[at:], re.MULTILINE))
