"""Invented geometry for drawings: crowded items, long names, missing values. The demonstration job is only the mould."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache
from typing import Generic, TypeVar

from hypothesis import strategies as st

from liftout.facts import Amount, Fact, Facts, Missing, gather
from liftout.facts.aircraft import Station, Tank
from liftout.facts.clearance import Space, Volume
from liftout.facts.electrical import Run
from liftout.facts.equipment import Item
from liftout.facts.limits import Corner, Limits
from liftout.facts.restraint import Restraint, Spot, Strap
from liftout.figures.loading_envelope import Loading
from liftout.job import load
from liftout.job.part import Part
from liftout.quantities import Quantity, of
from liftout.resources import folder

NEED = Missing("measure it", "in the job")

T = TypeVar("T")
P = TypeVar("P", bound=Part)


@dataclass(frozen=True)
class Invented(Generic[T]):
    """An invented thing that prints in a few words: facts hold the whole job and would print all of it."""

    value: T
    words: tuple[object, ...]

    def __repr__(self) -> str:
        return f"{type(self.value).__name__}{self.words}"


def changed(thing: T, **parts: object) -> T:
    """The same fact or group of facts with some parts changed."""
    return thing._replace(**parts) if isinstance(thing, tuple) else replace(thing, **parts)  # type: ignore[attr-defined, no-any-return, type-var]


def told_otherwise(part: P, **values: object) -> P:
    """A part of a job that says something else; nothing is checked."""
    new = object.__new__(type(part))
    new.__dict__.update(part.__dict__ | values)
    return new


def brief(fact: Fact[Quantity] | Missing) -> str:
    """A fact in a word."""
    return fact.value.written if isinstance(fact, Fact) else "?"


def item_words(item: Item) -> tuple[str, ...]:
    """An item in a few words."""
    return (item.name, *(brief(fact) for fact in (item.arm, item.lateral, item.height, item.length, item.width, item.tall)))


@cache
def demonstration() -> Facts:
    """Facts of the demonstration job."""
    return gather(load(folder("jobs") / "halden_4_cooler" / "job.yaml"))


names = st.one_of(
    st.sampled_from(["radio", "cabin unit", "tail unit", "ölkühler", 'W<1> & "2"', "a", "Ærø", "MMMMMMMMMMMMMMMMMMMMWWWWWWWWWWWWWWWWWWWW"]),
    st.text("abcdefghijklm nopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-/&<>\"'åäöÉñ", min_size=1, max_size=90).map(
        lambda text: " ".join(text.split()) or "x"
    ),
)


def told(quantity: Quantity) -> Fact[Quantity]:
    """A fact as if somebody had written it."""
    return Fact(changed(quantity, written=str(quantity)), "job.yaml:1", "merely stated")


def word(text: str) -> Fact[str]:
    """A word as if somebody had written it."""
    return Fact(text, "job.yaml:1", "job")


def answer(*, yes: bool) -> Fact[bool]:
    """A yes or a no as if somebody had written it."""
    return Fact(yes, "job.yaml:1", "merely stated")


@st.composite
def amounts(draw: st.DrawFn, low: float, high: float, symbol: str, *, missing: bool = False) -> Amount:
    """A quantity between two magnitudes, to one decimal place; at times missing."""
    if missing and draw(st.integers(0, 5)) == 0:
        return NEED
    return told(of(Decimal(draw(st.integers(round(low * 10), round(high * 10)))).scaleb(-1), symbol))


@st.composite
def items(draw: st.DrawFn, *, symbol: str = "in", missing: bool = True, name: str | None = None) -> Item:
    """An item somewhere; drawn from few arms so that many lie close together."""
    mould = draw(st.sampled_from(demonstration().items))
    scale = 25.4 if symbol == "mm" else 1.0
    arm = draw(st.one_of(st.just(told(of("94.0", symbol))), amounts(-40 * scale, 260 * scale, symbol, missing=missing)))
    height = draw(amounts(-20 * scale, 60 * scale, symbol, missing=missing))
    lateral = draw(amounts(-30 * scale, 30 * scale, symbol, missing=missing))
    length, width, tall = (draw(amounts(0.5 * scale, 40 * scale, symbol, missing=missing)) for _ in range(3))
    return changed(
        mould,
        name=name or draw(names),
        removable=draw(st.booleans()),
        arm=arm,
        lateral=lateral,
        height=height,
        length=length,
        width=width,
        tall=tall,
        front=draw(faces(arm, length, symbol)),
        left=draw(faces(lateral, width, symbol)),
        underside=draw(faces(height, tall, symbol)),
    )


@st.composite
def faces(draw: st.DrawFn, centre: Amount, size: Amount, symbol: str) -> Amount:
    """The face of a box that holds its centre of gravity; at times missing."""
    if isinstance(centre, Missing) or isinstance(size, Missing) or draw(st.integers(0, 3)) == 0:
        return NEED
    back = size.value.magnitude * draw(st.integers(0, 10)) / 10
    return told(of(centre.value.magnitude - back, symbol))


@st.composite
def volumes(draw: st.DrawFn, symbol: str) -> tuple[Volume, ...]:
    """Spaces that must stay clear, some one within another, some without a box."""
    mould = demonstration().keep_clear.volumes[0]
    scale = 25.4 if symbol == "mm" else 1.0
    found = []
    for name in draw(st.lists(names, max_size=12, unique=True)):
        front, low = draw(st.integers(-20, 200)), draw(st.integers(0, 50))
        long, tall = draw(st.integers(0, 60)), draw(st.integers(0, 40))
        arms = [told(of(Decimal(str(round(edge * scale, 1))), symbol)) for edge in (front, front + long)]
        heights = [told(of(Decimal(str(round(edge * scale, 1))), symbol)) for edge in (low, low + tall)]
        if draw(st.integers(0, 5)) == 0:
            heights[1] = NEED  # type: ignore[call-overload]
        space = draw(st.sampled_from([Space(arms[0], arms[1], NEED, NEED, heights[0], heights[1])] * 4 + [None]))
        found.append(changed(mould, name=name, space=space))
    return tuple(found)


@st.composite
def fits(draw: st.DrawFn, most: int = 12) -> Invented[Facts]:
    """A fit with many items, stations and tanks."""
    plain = demonstration()
    symbol = draw(st.sampled_from(["in", "mm"]))
    found = draw(st.lists(items(symbol=symbol), min_size=1, max_size=most, unique_by=lambda item: item.name))
    places = draw(st.lists(st.tuples(names, amounts(-30, 300, "in", missing=True)), max_size=8))
    stations = tuple(Station(name, "occupants", arm, NEED, NEED, NEED, NEED, (), ()) for name, arm in places)
    tanks = tuple(
        Tank(name, arm, NEED, NEED, NEED, ()) for name, arm in draw(st.lists(st.tuples(names, amounts(0, 100, "in", missing=True)), max_size=3))
    )
    by_name = {item.name: item for item in found}
    restraints = tuple(changed(r, item=by_name[r.item.name]) for r in plain.restraints if r.item.name in by_name)
    kept = changed(plain.keep_clear, volumes=draw(volumes(symbol)))
    aircraft = changed(plain.aircraft, stations=stations, tanks=tanks)
    fit = changed(plain, items=tuple(found), restraints=restraints, aircraft=aircraft, keep_clear=kept, worked={})
    return Invented(
        fit,
        (
            *map(item_words, found),
            *((s.name, brief(s.arm)) for s in (*stations, *tanks)),
            *((v.name, *map(brief, v.space or ())) for v in kept.volumes),
        ),
    )


@st.composite
def spots(draw: st.DrawFn) -> Spot:
    """A point of the aircraft."""
    return Spot(draw(amounts(60, 130, "in")), draw(amounts(-25, 25, "in")), draw(amounts(0, 40, "in")))


@st.composite
def restraints(draw: st.DrawFn, *, missing: bool = True) -> Invented[Restraint]:
    """What holds an item: up to ten straps, some on one anchor."""
    mould = demonstration().restraints[0]
    shared = draw(st.lists(spots(), min_size=1, max_size=4))
    straps = [
        Strap(
            name,
            draw(st.one_of(spots(), st.sampled_from(shared))),
            draw(st.one_of(spots(), st.sampled_from(shared))),
            draw(amounts(100, 5000, "lbf", missing=missing)),
            word("ultimate"),
            word("floor fitting"),
        )
        for name in draw(st.lists(names, max_size=10, unique=True))
    ]
    blocked = tuple(draw(st.lists(st.sampled_from(["forward", "aft", "left", "right"]), unique=True)))
    contacts = tuple(draw(st.lists(spots(), max_size=6)))
    item = draw(items(missing=missing))
    spoken = [(s.name, *(brief(f) for end in (s.attached, s.anchored) for f in (end.arm, end.lateral, end.height))) for s in straps]
    return Invented(
        changed(mould, item=item, straps=tuple(straps), contacts=contacts, blocked=blocked), (item_words(item), *spoken, len(contacts), blocked)
    )


@st.composite
def limits(draw: st.DrawFn) -> Limits:
    """Limits with rising weights; a side may be missing."""

    def side(low: float, high: float) -> tuple[Corner, ...]:
        weights = sorted(draw(st.sets(st.integers(1200, 4000), min_size=1, max_size=5)))
        return tuple(Corner(told(of(weight, "lb")), draw(amounts(low, high, "in"))) for weight in weights)

    forward = draw(st.one_of(st.just(()), st.builds(side, st.just(20.0), st.just(40.0))))
    aft = draw(st.one_of(st.just(()), st.builds(side, st.just(40.0), st.just(60.0))))
    most = draw(amounts(2000, 4200, "lb", missing=True))
    return changed(demonstration().aircraft.limits, maximum_takeoff=most, maximum_landing=most, forward=forward, aft=aft)


@st.composite
def loadings(draw: st.DrawFn) -> Loading:
    """A weight at an arm; many alike."""
    if draw(st.integers(0, 7)) == 0:
        return Loading(draw(names), None, None, missing=(NEED,))
    weight = draw(st.one_of(st.just(of("2060.1", "lb")), st.integers(15000, 40000).map(lambda n: of(Decimal(n).scaleb(-1), "lb"))))
    arm = draw(st.one_of(st.just(of("39.48", "in")), st.integers(2000, 6000).map(lambda n: of(Decimal(n).scaleb(-2), "in"))))
    return Loading(draw(names), weight, arm)


@st.composite
def runs(draw: st.DrawFn) -> Invented[Run]:
    """A circuit of any make, with values missing."""
    mould = demonstration().runs[0]
    said = mould.place.said
    assert said is not None
    protection, conductor = said.protection, said.conductor  # type: ignore[attr-defined]
    label = draw(st.one_of(st.none(), names))
    protection = draw(
        st.sampled_from(
            [
                None,
                told_otherwise(protection, label=label),
                told_otherwise(protection, device=None, rating=None, label=label),
                told_otherwise(
                    protection,
                    from_source=None,
                    device=told_otherwise(protection.device, value="fuse") if hasattr(protection.device, "value") else "fuse",
                ),
            ]
        )
    )
    told_so = told_otherwise(
        said, protection=protection, connector=draw(st.one_of(st.none(), names)), conductor=draw(st.sampled_from([None, conductor]))
    )
    run = changed(
        mould,
        name=draw(names),
        place=changed(mould.place, said=told_so),
        source=draw(st.one_of(st.just(mould.source), names)),
        load=draw(items()),
        protection_declined=draw(st.sampled_from([None, None, word("fed through the pilot's own fuse")])),
        gauge=draw(st.sampled_from([NEED, word("6"), word("1/0")])),
        length=draw(amounts(1, 99, "ft", missing=True)),
        current=draw(amounts(0.1, 90, "A", missing=True)),
        duty=draw(st.sampled_from([NEED, word("continuous"), word("intermittent")])),
        return_path=draw(st.sampled_from([NEED, word("wire"), word("structure")])),
        return_resistance=draw(amounts(0, 9, "mohm", missing=True)),
        supply=draw(st.sampled_from([NEED, word("28 V")])),
        bus=changed(
            mould.bus, name=draw(st.one_of(st.just(NEED), names.map(word))), dead=draw(st.sampled_from([NEED, answer(yes=True), answer(yes=False)]))
        ),
    )
    return Invented(run, (run.name, run.source, run.load.name if run.load else None, label, told_so.connector))


__all__ = ["answer", "changed", "demonstration", "fits", "items", "limits", "loadings", "names", "restraints", "runs", "told", "word"]
