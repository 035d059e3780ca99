"""What the shop is free to choose, and by how much it may sensibly be changed to make a finding conform.

These are figures of ours for a search, not of any publication: how finely a thing is moved on an aircraft, and how far it is
worth looking. A remedy is never shown for them alone; everything is assessed again with the change first.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from itertools import count
from typing import NamedTuple

from liftout.job.reader import Said
from liftout.quantities import Quantity, QuantityError, plain, read


class Lever(NamedTuple):
    """One thing that may be chosen otherwise."""

    part: tuple[str, ...]
    """Path of the part it stands in; `*` for any name."""
    keys: tuple[str, ...]
    """Keys that change together, by the same amount; `*` for each key alone."""
    dimension: str
    step: str
    most: str
    more: str
    less: str
    """What to do, in the shop's words: {0} is the first name in the path, {1} the second, {by} the change, {to} the new value."""
    limits_operation: bool = False


_ALSO = ", and measure anew what then lies otherwise: straps, wires, lines"


def _moved(key: str, box: str, more: str, less: str) -> Lever:
    does = "move the {0} {by} "
    return Lever(("equipment", "*", "position"), (key, box), "length", "0.5 in", "30 in", f"{does}{more}{_ALSO}", f"{does}{less}{_ALSO}")


LEVERS = (
    _moved("arm", "front", "aft", "forward"),
    _moved("lateral", "left", "to the right", "to the left"),
    _moved("height", "underside", "up", "down"),
    Lever(("restraint", "*", "straps", "*"), ("rating",), "force", "50 lbf", "3000 lbf", "give strap {1} of the {0} a rating of {to}", ""),
    Lever(("restraint", "*"), ("block rating",), "force", "50 lbf", "3000 lbf", "give the stops of the {0} a strength of {to}", ""),
    Lever(("wiring", "runs", "*"), ("length",), "length", "0.5 ft", "15 ft", "", "lead circuit {0} on a way that is {by} shorter, {to}"),
    Lever(
        ("wiring", "runs", "*", "protection"),
        ("from source",),
        "length",
        "0.5 in",
        "24 in",
        "",
        "put the protection of circuit {0} {by} nearer to the bus",
    ),
    Lever(
        ("lines", "loops", "*", "coolant"),
        ("fraction",),
        "number",
        "1 %",
        "40 %",
        "fill the {0} with a share of {to}",
        "fill the {0} with a share of {to}",
    ),
    Lever(
        ("lines", "loops", "*", "segments", "*"),
        ("tightest bend",),
        "length",
        "0.25 in",
        "6 in",
        "lay {1} of the {0} in bends of no less than {to}",
        "",
    ),
    Lever(
        ("lines", "loops", "*", "segments", "*"), ("support spacing",), "length", "0.5 in", "30 in", "", "support {1} of the {0} at least every {to}"
    ),
    Lever(
        ("structure", "mountings", "*", "brackets", "*"),
        ("edge distance",),
        "length",
        "0.01 in",
        "0.5 in",
        "give the fasteners of {1} of the {0} an edge distance of {to}",
        "",
    ),
    Lever(
        ("structure", "mountings", "*", "brackets", "*", "pattern"),
        ("pitch",),
        "length",
        "0.1 in",
        "4 in",
        "space the fasteners of {1} of the {0} {to} apart",
        "",
    ),
    Lever(
        ("structure", "mountings", "*", "brackets", "*", "pattern"),
        ("in a row",),
        "number",
        "1",
        "4",
        "fasten {1} of the {0} with {to} fasteners in a row",
        "",
    ),
    Lever(
        ("structure", "mountings", "*", "brackets", "*", "bending"),
        ("lever",),
        "length",
        "0.05 in",
        "3 in",
        "",
        "shorten the lever of {1} of the {0} to {to}",
    ),
    Lever(
        ("condensate", "tubes", "*", "outlet"),
        ("arm",),
        "length",
        "1 in",
        "48 in",
        "move the condensate outlet of the {0} {by} aft",
        "move the condensate outlet of the {0} {by} forward",
    ),
    Lever(
        ("condensate", "tubes", "*", "outlet"),
        ("height",),
        "length",
        "0.5 in",
        "24 in",
        "move the condensate outlet of the {0} {by} up",
        "move the condensate outlet of the {0} {by} down",
    ),
    Lever(("removal", "*", "lift", "start"), ("reach",), "length", "0.5 in", "15 in", "", "take hold of the {0} at a reach of {to}"),
    Lever(("removal", "*", "lift", "end"), ("reach",), "length", "0.5 in", "15 in", "", "put the {0} down at a reach of {to}"),
    Lever(
        ("electrical", "phases", "*"),
        ("engine speed",),
        "engine speed",
        "20 rpm",
        "800 rpm",
        "keep the engine at {to} at least: {0}",
        "",
        limits_operation=True,
    ),
    Lever(("electrical", "phases", "*"), ("longest",), "time", "1 min", "60 min", "", "do not stay longer than {to}: {0}", limits_operation=True),
    Lever(
        ("loadings", "named", "*", "stations"),
        ("*",),
        "mass",
        "1 lb",
        "300 lb",
        "carry {by} more at {1}: {0}",
        "carry {by} less at {1}: {0}",
        limits_operation=True,
    ),
)


class Setting(NamedTuple):
    """A lever of one job: what it stands at, and how to say that it stands elsewhere."""

    lever: Lever
    names: tuple[str, ...]
    at: tuple[tuple[tuple[str, ...], Quantity], ...]
    """Paths that change together, the first of them the one that is told."""

    def moved(self, steps: int) -> tuple[tuple[tuple[str, ...], str], ...]:
        """Paths and new values, so many steps on; none where that leads nowhere."""
        if not (self.lever.more if steps > 0 else self.lever.less):
            return ()
        by = read(self.lever.step, self.lever.dimension).si * steps
        if abs(by) > read(self.lever.most, self.lever.dimension).si:
            return ()
        return tuple((path, _written(value, by)) for path, value in self.at)

    def told(self, steps: int) -> str:
        """What to do, in the shop's words."""
        lever = self.lever
        by = _written(self.at[0][1], abs(read(lever.step, lever.dimension).si * steps), change=True)
        return (lever.more if steps > 0 else lever.less).format(*self.names, by=by, to=self.moved(steps)[0][1])


def _written(value: Quantity, by: Decimal, *, change: bool = False) -> str:
    """The value, changed by so much, in its own unit; or the change alone."""
    unit = value.unit
    amount = unit.from_si(by) if change else unit.from_si(value.si + by)
    return f"{plain(amount.quantize(Decimal('0.001')).normalize())} {unit.symbol}".strip()


def settings(said: Said) -> Iterator[Setting]:
    """The levers that a job has: those whose values it tells."""
    yield from _single(said)
    yield from _alike_straps(said)


def added_straps(said: Said) -> Iterator[tuple[str, tuple[str, ...], Said]]:
    """A strap more, from where one holds an item already to another named anchor: what to do, its path, and what is said of it."""
    anchors = [name for name, _ in said.at(("aircraft", "anchors")).children()] if isinstance(said.at(("aircraft", "anchors")).value, dict) else []
    for names, path, straps in _parts(said, ("restraint", "*", "straps"), (), ()):
        told = dict(straps.children())
        new = next(name for name in (f"S{number}" for number in count(len(told) + 1)) if name not in told)
        for name, strap in told.items():
            led = dict(strap.children()).get("at")
            for anchor in anchors:
                if led is not None and led.value != anchor:
                    yield f"add strap {new} to the {names[0]}, like {name}, led to {anchor}", (*path, new), strap.changed(("at",), anchor)


def _alike_straps(said: Said) -> Iterator[Setting]:
    """Straps of one item with one rating, rated otherwise together."""
    for names, path, straps in _parts(said, ("restraint", "*", "straps"), (), ()):
        alike: dict[tuple[object, object], list[tuple[str, tuple[str, ...], Quantity]]] = {}
        for name, strap in straps.children():
            inside = dict(strap.children())
            value = _value(inside["rating"], "force") if "rating" in inside else None
            if value is not None:
                where = (*path, name, "rating", *(("value",) if _grounded(inside["rating"]) else ()))
                kind = inside["rating is"].value if "rating is" in inside else None
                alike.setdefault((value.si, str(kind)), []).append((name, where, value))
        for several in alike.values():
            if len(several) > 1:
                yield Setting(
                    _TOGETHER, (names[0], " and ".join(name for name, _, _ in several)), tuple((where, value) for _, where, value in several)
                )


_TOGETHER = Lever(("restraint", "*", "straps"), ("rating",), "force", "50 lbf", "3000 lbf", "give straps {1} of the {0} a rating of {to} each", "")


def _single(said: Said) -> Iterator[Setting]:
    for lever in LEVERS:
        for names, path, part in _parts(said, lever.part, (), ()):
            inside = dict(part.children())
            for keys in ((key,) for key in inside) if lever.keys == ("*",) else (lever.keys,):
                told = [((*path, key), _value(inside[key], lever.dimension)) for key in keys if key in inside]
                at = tuple(((*where, "value") if _grounded(inside[where[-1]]) else where, value) for where, value in told if value is not None)
                if at and at[0][0][len(path)] == keys[0]:
                    yield Setting(lever, (*names, keys[0]), at)


def _parts(
    said: Said, pattern: tuple[str, ...], names: tuple[str, ...], path: tuple[str, ...]
) -> Iterator[tuple[tuple[str, ...], tuple[str, ...], Said]]:
    if not pattern:
        if isinstance(said.value, dict):
            yield names, path, said
        return
    inside = dict(said.children()) if isinstance(said.value, dict) else {}
    for key in inside if pattern[0] == "*" else (pattern[0],):
        if key in inside:
            yield from _parts(inside[key], pattern[1:], (*names, key) if pattern[0] == "*" else names, (*path, key))


def _grounded(said: Said) -> bool:
    return isinstance(said.value, dict)


def _value(said: Said, dimension: str) -> Quantity | None:
    """The quantity told here, with evidence or without."""
    text = dict(said.children())["value"].value if isinstance(said.value, dict) and "value" in said.value else said.value
    try:
        return read(text, dimension) if isinstance(text, str) else None
    except QuantityError:
        return None
