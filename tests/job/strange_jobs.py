"""Job files as strangers would write them: a demonstration job with some of its lines said otherwise, in every way that came to mind.

Most changes leave a job that can be read, since what is behind the reader is to be reached too.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from pathlib import Path

JOBS = Path(__file__).parents[2] / "jobs"
TEXTS = {
    name: (JOBS / name / "job.yaml").read_text(encoding="utf-8")
    for name in ("halden_4_cooler", "tessel_2_cooler", "orrin_6p_cooler", "halden_4_survey")
}

_VALUE = re.compile(r"(?P<before>[:\[{,]\s+)(?P<value>-?[0-9][0-9./ ]*(?: ?[^\s,{}\[\]]+)?)(?P<after>[,}\]\n])")
_WORD = re.compile(r"(?P<before>: )(?P<value>[a-z][a-z ]+)(?P<after>[,}\]\n])")

HOSTILE = (
    "nan", "inf lb", "-inf", "1e400 lb", "9**9**9 lb", "31.5 lb^0", "1e-400 in", "0 in", "0x10 lb", "31,5 lb", "1_000 lb", "999999999999999 lb",
    "1/0 in", "3 1/8 in", "3 9/8 in", "٣ lb", "３１ lb", "31.5 ㏀", "12 ft lb", "12 lb/ft/ft", "12 °C", "-300 °C", "1 %", "250 %", "-0 lb", "0.0000000000001 lb",
    '"\\u202e12 lb"', '"\\u200b12 lb"', '"\\x00"', "!!python/object/apply:os.system [id]", "!!float 3", "&a [*a]", "*nothing", "~", "null", "true",
    "[]", "{}", "[[[[[[[[[[1]]]]]]]]]]", "{none: because}", "none", "{value: 3 lb}", "{value: 3 lb, measured: {by: x, date: 2026-01-01, instrument: y}}",
    "../../etc/passwd", "/dev/zero", "airframes/../airframes/halden_4", '"<script>alert(1)</script>"', '"#read(\\"/etc/passwd\\")"', '"{{ 7 * 7 }}"',
    "2026-02-30", "1 lb" + "0" * 200, "а lb", "12 lb ", "§", '"' + "x" * 5000 + '"',
)  # fmt: skip
"""Values that are none, or not what they seem."""


def strange(chance: random.Random) -> tuple[str, str]:
    """Name of the job that it was made of, and its text with one to four changes."""
    name = chance.choice(sorted(TEXTS))
    text = TEXTS[name]
    for _ in range(chance.choice((1, 1, 1, 2, 2, 3, 4))):
        # Plausible changes are more frequent: three of four jobs should be read and assessed.
        change = chance.choices(_CHANGES, weights=_WEIGHTS)[0]
        text = change(text, chance)
    return name, text


def _one(pattern: re.Pattern[str], text: str, chance: random.Random, other: Callable[[str], str]) -> str:
    found = list(pattern.finditer(text))
    if not found:
        return text
    match = chance.choice(found)
    return f"{text[: match.start('value')]}{other(match['value'])}{text[match.end('value') :]}"


def _scaled(text: str, chance: random.Random) -> str:
    """A number, larger or smaller by anything up to a thousand."""

    def other(value: str) -> str:
        number, _, unit = value.partition(" ")
        if not re.fullmatch(r"-?[0-9]+(\.[0-9]+)?", number):
            return value
        factor = chance.choice((0, 0.001, 0.1, 0.5, 0.9, 1.1, 2, 10, 1000, -1))
        return f"{float(number) * factor:.6f}".rstrip("0").rstrip(".") + (f" {unit}" if unit else "")

    return _one(_VALUE, text, chance, other)


def _swapped(text: str, chance: random.Random) -> str:
    """Two values in each other's place."""
    found = list(_VALUE.finditer(text))
    first, second = sorted(chance.sample(found, 2), key=lambda match: match.start())
    return (
        text[: first.start("value")]
        + second["value"]
        + text[first.end("value") : second.start("value")]
        + first["value"]
        + text[second.end("value") :]
    )


def _hostile(text: str, chance: random.Random) -> str:
    return _one(_VALUE, text, chance, lambda _: chance.choice(HOSTILE))


def _word(text: str, chance: random.Random) -> str:
    """A word in the place of another of the same job."""
    words = [match["value"] for match in _WORD.finditer(text)]
    return _one(_WORD, text, chance, lambda _: chance.choice(words))


def _line(text: str, chance: random.Random) -> str:
    """A line less."""
    lines = text.split("\n")
    del lines[chance.randrange(1, len(lines))]
    return "\n".join(lines)


def _block(text: str, chance: random.Random) -> str:
    """A part less: a line and everything that stands deeper below it."""
    lines = text.split("\n")
    first = chance.randrange(1, len(lines))
    depth = len(lines[first]) - len(lines[first].lstrip())
    last = first + 1
    while last < len(lines) and (not lines[last].strip() or len(lines[last]) - len(lines[last].lstrip()) > depth):
        last += 1
    return "\n".join(lines[:first] + lines[last:])


def _twice(text: str, chance: random.Random) -> str:
    lines = text.split("\n")
    at = chance.randrange(1, len(lines))
    return "\n".join([*lines[:at], lines[at - 1], *lines[at:]])


def _deeper(text: str, chance: random.Random) -> str:
    lines = text.split("\n")
    at = chance.randrange(1, len(lines))
    lines[at] = f"  {lines[at]}"
    return "\n".join(lines)


def _letter(text: str, chance: random.Random) -> str:
    at = chance.randrange(len(text))
    return text[:at] + chance.choice("aA0:{}[]'\"#&*!|>%@`\t\n\u00a0\u2212é") + text[at + 1 :]


def _bomb(text: str, chance: random.Random) -> str:
    del chance
    steps = "\n".join(f"  b{number}: &b{number} [{', '.join([f'*b{number - 1}'] * 9)}]" for number in range(1, 9))
    return f"{text}\nbomb:\n  b0: &b0 [x]\n{steps}\n"


_CHANGES = (_scaled, _swapped, _hostile, _word, _line, _block, _twice, _deeper, _letter, _bomb)
_WEIGHTS = (50, 3, 5, 3, 12, 12, 1, 1, 2, 1)
