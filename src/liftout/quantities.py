"""How a quantity is written, read, converted and printed. Knows nothing else of this house.

A quantity is read by a closed grammar of our own: one number, one unit, the whole string, finite. The meaning of
single unit names comes from pint (`unit_definitions`), which never sees a person's text.
Magnitudes are decimals, so that what was written is kept and sums of written figures are exact.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Context, Decimal, localcontext
from functools import cache, lru_cache
from typing import Final, Literal

from liftout.unit_definitions import answers

PRECISION: Final = Context(prec=50)
"""Enough digits that a sum of written figures survives a change of units and back."""

DIGITS_TRUSTED: Final = 28
"""Digits of a result that are printed at most. No decimal holds a psi exactly, so the last of the fifty are noise, and what
is just half would be rounded down by it: 30 lb/ft² on 0.9375 ft² is 28.125 lb, and 28.13 lb in print."""
_TRUSTED: Final = Context(prec=DIGITS_TRUSTED)

UNIT_OF: Final[dict[str, str]] = {
    "length": "m",
    "mass": "kg",
    "time": "s",
    "current": "A",
    "temperature": "K",
    "temperature difference": "Δ°C",
    "angle": "°",
    "number": "",
    "area": "m²",
    "volume": "m³",
    "force": "N",
    "pressure": "Pa",
    "power": "W",
    "voltage": "V",
    "resistance": "Ω",
    "resistance per length": "Ω/m",
    "charge": "Ah",
    "speed": "m/s",
    "volume flow": "m³/s",
    "density": "kg/m³",
    "moment": "kg·m",
    "pressure on a floor": "Pa",
    "mass on an area": "kg/m²",
    "mass per length": "kg/m",
    "acceleration": "m/s²",
    "viscosity": "Pa·s",
    "specific heat": "J/kg·K",
    "thermal conductivity": "W/m·K",
    "temperature coefficient": "K⁻¹",
    "temperature gradient": "K/m",
    "torque": "N·m",
    "magnetic field": "A/m",
    "number per length": "m⁻¹",
    "fuel mass for power": "kg/W",
    "heat flux": "W/m^2",
    "heat per length": "W/m",
    "enthalpy": "J/kg",
    "heat transfer coefficient": "W/m^2·K",
    "engine speed": "rpm",
}

EXAMPLES: Final[dict[str, str]] = {
    "length": "118 in",
    "mass": "31.5 lb",
    "time": "20 min",
    "current": "8 A",
    "temperature": "70 °C",
    "temperature difference": "8 Δ°C",
    "angle": "30 deg",
    "number": "4",
    "area": "4 in^2",
    "volume": "1.2 L",
    "force": "5000 lbf",
    "pressure": "15 psi",
    "power": "800 W",
    "voltage": "14 V",
    "resistance": "3 mohm",
    "resistance per length": "9.2 mohm/m",
    "charge": "35 Ah",
    "speed": "120 kt",
    "volume flow": "6 L/min",
    "density": "6.0 lb/USgal",
    "moment": "12337 lb-in",
    "pressure on a floor": "4 kPa",
    "mass on an area": "75 lb/ft^2",
    "mass per length": "45 lb/ft",
    "acceleration": "9.81 m/s^2",
    "viscosity": "0.0028 Pa·s",
    "specific heat": "3500 J/kg·K",
    "thermal conductivity": "0.42 W/m·K",
    "temperature coefficient": "0.0039 1/K",
    "temperature gradient": "0.0065 K/m",
    "torque": "50 lbf-in",
    "magnetic field": "14.4 A/m",
    "number per length": "4.9 1/in",
    "fuel mass for power": "0.5 lb/hp",
    "heat flux": "900 W/m^2",
    "heat per length": "30 W/m",
    "enthalpy": "2501 kJ/kg",
    "heat transfer coefficient": "3 W/m^2·K",
    "engine speed": "1000 rpm",
}
"""How a person writes one, by dimension: shown wherever a reading fails."""

KEPT: Final = 4096
"""Texts and figures whose reading or rounding is kept at most."""

LARGEST: Final = Decimal("1e12")
"""Nothing on a light aircraft is larger in any unit offered here; a larger figure is a slip of the keyboard."""


class QuantityError(ValueError):
    """A text that is not a quantity: what is wrong, and what would be right."""

    def __init__(self, wrong: str, right: str) -> None:
        super().__init__(f"{wrong}  {right}")
        self.wrong = wrong
        self.right = right


Dimension = tuple[tuple[str, int], ...]
"""Exponents of the base dimensions, sorted by name; those with exponent zero are left out."""

NUMBER: Final[Dimension] = ()


@lru_cache(maxsize=1024)
def times(a: Dimension, b: Dimension, power: int = 1) -> Dimension:
    """The dimension of a × b**power."""
    powers = dict(a)
    for name, exponent in b:
        powers[name] = powers.get(name, 0) + exponent * power
    return tuple(sorted((name, exponent) for name, exponent in powers.items() if exponent))


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: its printed symbol and how a magnitude in it becomes a coherent SI magnitude, factor × m + offset."""

    symbol: str
    factor: Decimal
    dimension: Dimension
    offset: Decimal = Decimal(0)

    def to_si(self, magnitude: Decimal) -> Decimal:
        """Coherent SI magnitude of `magnitude` in this unit."""
        return PRECISION.fma(magnitude, self.factor, self.offset)

    def from_si(self, magnitude: Decimal) -> Decimal:
        """Magnitude in this unit of a coherent SI magnitude."""
        return PRECISION.divide(PRECISION.subtract(magnitude, self.offset), self.factor)


ONE: Final = Unit("", Decimal(1), NUMBER)


@lru_cache(maxsize=512)
def _single(name: str) -> Unit | None:
    if name not in answers():
        return None
    symbol, factor, offset, dimension = answers()[name]
    symbol = next((spoken for spoken, joined in _TWO_WORDS.items() if joined == symbol), symbol)
    return Unit(symbol, Decimal(factor), tuple((base, exponent) for base, exponent in dimension), Decimal(offset))


def unit_names() -> tuple[str, ...]:
    """Printed symbol of every single unit offered, once each."""
    return tuple(dict.fromkeys(found.symbol for name in sorted(answers()) if (found := _single(name)) is not None))


_TWO_WORDS = {"US gal": "USgal", "US qt": "USqt", "imp gal": "impgal"}
_POWERS = {"": 1, "^2": 2, "^3": 3, "²": 2, "³": 3, "**2": 2, "**3": 3, "^-1": -1, "⁻¹": -1}
_FACTOR = re.compile(r"(?P<name>[A-Za-zΩµΔ°%_]+[A-Za-z0-9_]*?)(?P<power>\^-1|\^2|\^3|\*\*2|\*\*3|²|³|⁻¹)?")
_SUPERSCRIPT = {1: "", 2: "²", 3: "³", -1: "⁻¹"}
_UNIT_PARTS_MAX = 6


@lru_cache(maxsize=1024)
def unit(text: str) -> Unit:
    """The unit written as `text`, for example `lb`, `mohm/m`, `lb-in`, `kg/m^3`.

    Raises:
        QuantityError: when a name is unknown, or the text is not names joined by · * - and at most one /.
    """
    if text == "":
        return ONE
    for spoken, joined in _TWO_WORDS.items():
        text = text.replace(spoken, joined)
    halves = text.split("/")
    if text.startswith("1/"):
        halves = ["", text[2:]]
    if len(halves) > 2:
        raise QuantityError(f'"{text}": more than one division in a unit.', 'Write one "/", for example "kg/m^3".')
    factor, offset, dimension = Decimal(1), Decimal(0), NUMBER
    shown: list[list[str]] = []
    parts = 0
    for half, sign in zip(halves, (1, -1), strict=False):
        names: list[str] = []
        # A hyphen joins names (lb-in) but belongs to the power in "^-1".
        for part in re.split(r"[·*](?!\*)|(?<!\^)-| ", half.replace("**", "^")) if half else []:
            parts += 1
            match = _FACTOR.fullmatch(part)
            found = _single(match["name"]) if match else None
            if match is None or found is None or parts > _UNIT_PARTS_MAX:
                raise QuantityError(f'"{text}": no such unit.', _nearest_unit(match["name"] if match else part))
            power = _POWERS[match["power"] or ""]
            with localcontext(PRECISION):
                factor *= found.factor ** (power * sign)
            dimension = times(dimension, found.dimension, power * sign)
            offset = found.offset
            names.append(found.symbol + _SUPERSCRIPT[power])
        shown.append(names)
    if parts > 1 or len(halves) > 1:
        offset = Decimal(0)  # in a product a temperature is a difference
    symbol = "·".join(shown[0])
    if len(shown) > 1:
        below = "·".join(shown[1])
        symbol = f"{symbol}/{below}" if symbol else "·".join(f"{name}⁻¹" for name in shown[1])
    return Unit(symbol, factor, dimension, offset)


_MEANT = {
    **dict.fromkeys(("nm", "newtonmeter", "newtonmetre"), "N-m"),
    **dict.fromkeys(("inlb", "inlbs", "lbin", "lbsin"), "lbf-in"),
    **dict.fromkeys(("ftlb", "ftlbs", "lbft", "lbsft"), "lbf-ft"),
    **dict.fromkeys(("oc", "degc", "celsius"), "°C"),
    **dict.fromkeys(("of", "degf", "fahrenheit"), "°F"),
    **dict.fromkeys(("vdc", "vac"), "V"),
    **dict.fromkeys(("adc", "aac"), "A"),
}
"""Units as people write them in one word, and how they are written here."""


def _nearest_unit(name: str) -> str:
    if name in ("gal", "gallon", "gallons", "qt"):
        return 'Say which gallon: "US gal" or "imp gal".'
    if name.lower() in _MEANT:
        return f'Did you mean "{_MEANT[name.lower()]}"?'
    import difflib

    near = difflib.get_close_matches(name, sorted(answers()), n=1, cutoff=0.6)
    lower = [known for known in sorted(answers()) if known.lower() == name.lower()]
    return f'Did you mean "{(lower or near)[0]}"?' if lower or near else "The handbook lists the units, page Job file."


@dataclass(slots=True, unsafe_hash=True)
class Quantity:
    """A magnitude with its unit, and the text a person wrote for it where a person did.

    It is never changed. Made by the ten thousand, it is not frozen, which would take three times as long.
    """

    magnitude: Decimal
    unit: Unit
    written: str = field(default="", compare=False)
    _si: Decimal | None = field(default=None, init=False, compare=False, repr=False)
    _si_float: float | None = field(default=None, init=False, compare=False, repr=False)

    @property
    def si(self) -> Decimal:
        """Coherent SI magnitude, exact for every unit offered here but degrees Fahrenheit and the angle degree."""
        if self._si is None:
            self._si = self.unit.to_si(self.magnitude)
        return self._si

    @property
    def si_float(self) -> float:
        """Coherent SI magnitude as a float, for physics."""
        if self._si_float is None:
            self._si_float = float(self.si)
        return self._si_float

    @property
    def dimension(self) -> Dimension:
        """The dimension of the unit."""
        return self.unit.dimension

    def to(self, symbol: str) -> Decimal:
        """Magnitude in the unit written as `symbol`.

        Raises:
            QuantityError: when that unit measures something else.
        """
        target = unit(symbol)
        if target.dimension != self.dimension:
            raise QuantityError(f'"{self}" cannot be told in {symbol}.', f"It is told in {self.unit.symbol or 'no unit'}.")
        return target.from_si(self.si)

    def shown_in(self, symbol: str, digits: int = 4) -> str:
        """Printed in the unit written as `symbol`, to `digits` significant digits."""
        return f"{significant(self.to(symbol), digits)} {unit(symbol).symbol}".rstrip()

    def __str__(self) -> str:
        return f"{plain(self.magnitude)} {self.unit.symbol}".rstrip()


def of(magnitude: Decimal | float | str, symbol: str) -> Quantity:
    """The quantity of `magnitude` in the unit written as `symbol`; a float is taken at 17 significant digits."""
    number = Decimal(repr(magnitude)) if isinstance(magnitude, float) else Decimal(magnitude)
    return Quantity(number, unit(symbol))


def from_si(magnitude: Decimal | float, symbol: str) -> Quantity:
    """The quantity in the unit written as `symbol` whose coherent SI magnitude is `magnitude`."""
    number = Decimal(repr(magnitude)) if isinstance(magnitude, float) else magnitude
    target = unit(symbol)
    return Quantity(target.from_si(number), target)


_NUMBER = r"(?P<sign>[-+\u2212]?)\s?(?:(?P<decimal>[0-9]{1,15}(?:\.[0-9]{1,15})?|\.[0-9]{1,15})|(?:(?P<whole>[0-9]{1,9}) )?(?P<upper>[0-9]{1,6})/(?P<lower>[0-9]{1,6}))"
_QUANTITY = re.compile(rf"{_NUMBER}(?:\s?(?P<unit>(?:1/)?[A-Za-zΩµΔ].*|[%°].*))?")
_TEXT_MAX = 60


@lru_cache(maxsize=KEPT)
def read(text: str, dimension: str) -> Quantity:
    """The quantity written as `text`, which must measure `dimension` (a key of `EXAMPLES`).

    Raises:
        QuantityError: what is wrong with the text and how one is written.
    """
    wanted = unit(UNIT_OF[dimension])
    like = how_one_is_written(dimension)
    shown = text if len(text) <= _TEXT_MAX else text[:_TEXT_MAX] + "…"
    match = _QUANTITY.fullmatch(text.strip()) if len(text) <= _TEXT_MAX and text.isprintable() else None
    if match is None or _FEET_AND_INCHES.fullmatch(text.strip()):
        raise QuantityError(f'"{shown}" is not one number and one unit.', f"{_slip(text)}{like}")
    if match["decimal"] is not None:
        magnitude = Decimal(match["decimal"])
    else:
        lower = int(match["lower"])
        if lower == 0 or lower > 64 or lower & (lower - 1):
            raise QuantityError(f'"{shown}": a fraction is written in halves to sixty-fourths.', like)
        if match["whole"] is not None and int(match["upper"]) >= lower:
            raise QuantityError(f'"{shown}": the fraction after a whole number is less than one.', like)
        magnitude = Decimal(match["whole"] or 0) + Decimal(match["upper"]) / lower
    if match["sign"] in ("-", "\u2212"):
        magnitude = -magnitude
    try:
        found = unit((match["unit"] or "").strip())
    except QuantityError as error:
        cure = _slip(text)
        raise QuantityError(f'"{shown}" is not one number and one unit.' if cure else error.wrong, f"{cure or f'{error.right} '}{like}") from None
    if found.dimension != wanted.dimension:
        if dimension == "torque" and found.dimension == unit(UNIT_OF["moment"]).dimension:
            like = f"The lb of a torque is a force: write lbf-in, lbf-ft or N-m. {like}"
        measured = f"measures {_named(found.dimension)}" if found.symbol else "has no unit"
        raise QuantityError(f'"{shown}" {measured}.', like)
    if not math.isfinite(magnitude) or abs(magnitude) > LARGEST:
        raise QuantityError(f'"{shown}" is larger than anything on a light aircraft.', like)
    quantity = Quantity(magnitude, found, text.strip())
    if not _suits(found, dimension):
        raise QuantityError(f'"{shown}" is not told in a unit of {_article(dimension)}.', like)
    if dimension == "temperature" and quantity.si <= 0:
        raise QuantityError(f'"{shown}" is colder than anything can be.', like)
    return quantity


_ONE_VALUE = 'Write the one value that was measured, and beside it as "tolerance" how far it may be off. '
_NOT_KNOWN = "Leave it out while it is not known; then it is asked for. "
_FEET_AND_INCHES = re.compile(r"[0-9.]+ ?(?:ft|feet|foot|') ?[0-9./ ]+(?:in|inch|inches|\"|'')?")
_SLIPS = (
    (_FEET_AND_INCHES, "Say it in one unit, feet with a decimal or inches: 12 ft 6 in are 12.5 ft or 150 in. "),
    (re.compile(r"[0-9]+-[0-9]+/[0-9]+\D*"), "Write a space before the fraction: 12 1/2 in. "),
    (re.compile(r".*[¼½¾⅛⅜⅝⅞].*"), "Write the fraction with a slash: 12 1/2 in. "),
    (re.compile(r"t\.?b\.?[dac]\.?|n/?a|n\.a\.|unknown|not known|ditto|none|nil|later|\?+|[-–—]+|x+|\.\.+|…", re.IGNORECASE), _NOT_KNOWN),
    (re.compile(r"(?:[0-9]+\.?[0-9]*[OolI]|[OolI]\.?[0-9])[0-9OolI.]*(?: .*)?"), "Look for a letter O or l among the digits. "),
    (re.compile(r"[0-9. /]+[\"'#′″]"), "Write the unit by its name: in, ft or lb. "),
    (re.compile(r"[0-9]+,[0-9]{3}(?:\D.*)?"), "Write thousands without a comma. "),
    (re.compile(r"[-+]?[0-9]+,[0-9].*"), "Write the decimal with a point. "),
    (re.compile(r"(?:~|≈|±|<|>|ca\.?|c\.|about|approx\.?|circa).*|.*±.*", re.IGNORECASE), _ONE_VALUE),
    (re.compile(r"(?:[A-Za-z]+\.? )+[-+]?[0-9].*"), "Write the number first and then its unit, and no other word. "),
    (re.compile(r"[0-9.]+ ?[^0-9/ ]+ ?[/,;&] ?[0-9.]+.*"), "Write one value. "),
    (re.compile(r"[0-9.]+ ?[^0-9 #]+#.*"), "A remark begins with a space and #. "),
    (re.compile(r"[0-9.]+ ?\w* ?(?:-|–|to|\.\.\.?|…) ?[0-9.]+.*"), _ONE_VALUE),
)
"""What people write that is no quantity, and what each of them would do."""


def _slip(text: str) -> str:
    """What to do about a text that looks like something else that people write."""
    return next((cure for pattern, cure in _SLIPS if len(text) <= _TEXT_MAX and pattern.fullmatch(text.strip())), "")


def _suits(told: Unit, dimension: str) -> bool:
    """Whether a unit of the right dimension is also one of the right kind: an angle is no count, a difference no temperature."""
    match dimension:
        case "number":
            return told.symbol in ("", "%", "ppm")
        case "angle":
            return told.symbol in ("°", "rad")
        case "temperature":
            return told.symbol in ("K", "°C", "°F")
        case "temperature difference":
            return told.symbol in ("K", "Δ°C", "Δ°F")
        case _:
            return True


def how_one_is_written(dimension: str) -> str:
    """What to write where a text is no quantity of this dimension."""
    return f'Write {_article(dimension)}, for example "{EXAMPLES[dimension]}".'


def _article(dimension: str) -> str:
    return f"{'an' if dimension[0] in 'aeiou' else 'a'} {dimension}"


def _named(dimension: Dimension) -> str:
    return next((name for name, symbol in UNIT_OF.items() if unit(symbol).dimension == dimension), "something else")


def half_up(value: Decimal, places: int) -> Decimal:
    """`value` rounded half-up to `places` decimal places (negative places round to tens, hundreds ...)."""
    done = _TRUSTED.plus(value).quantize(_place(places), ROUND_HALF_UP, PRECISION)
    return done or abs(done)  # no minus before a zero


@cache
def _place(places: int) -> Decimal:
    return Decimal(1).scaleb(-places)


def rounded(value: Decimal, digits: int) -> Decimal:
    """`value` rounded half-up to `digits` significant digits."""
    return Decimal(0) if value == 0 else half_up(value, digits - 1 - value.adjusted())


def plain(value: Decimal) -> str:
    """`value` without an exponent, with a true minus sign."""
    text = format(value, "f")
    return text.replace("-", "\u2212")


def significant(value: Decimal, digits: int) -> str:
    """`value` printed to `digits` significant digits, half-up, never with an exponent."""
    return plain(rounded(value, digits)) if value else "0"


def places(value: Decimal, count: int) -> str:
    """`value` printed with `count` decimal places, half-up."""
    return plain(half_up(value, count))


Rounding = Literal["nearest", "down", "up"]
_ROUNDINGS: Final = {"nearest": ROUND_HALF_UP, "down": ROUND_FLOOR, "up": ROUND_CEILING}
DIGITS_READ: Final = 4
"""Significant digits of a result that a person reads and does not reckon on with."""
PLACES_READ: Final = 2
"""Decimal places that it has in any case, where it was worked to so many: a moment or a weight is more than its first four digits."""


def finished(value: Decimal, rounding: Rounding = "nearest") -> Decimal:
    """A result as a person reads it, with no digits that say nothing; one that has no more of them stays as it is.

    Args:
        value: the result.
        rounding: "nearest" is half-up; a limit is rounded to its safe side, "down" where at most so much is allowed, "up" where at least.

    >>> finished(Decimal("-5.78819")), finished(Decimal("82664.05")), finished(Decimal("13.16661"), "up")
    (Decimal('-5.788'), Decimal('82664.05'), Decimal('13.17'))
    """
    count = max(PLACES_READ, DIGITS_READ - 1 - value.adjusted())
    if -int(value.as_tuple().exponent) <= count:
        return value
    return _TRUSTED.plus(value).quantize(_place(count), _ROUNDINGS[rounding], PRECISION)


# --- the other system of units ------------------------------------------------------------------------------

SYSTEMS: Final[dict[str, dict[str, str]]] = {
    "SI": {
        "lb": "kg",
        "oz": "g",
        "in": "mm",
        "ft": "m",
        "lb·in": "kg·m",
        "lb·ft": "kg·m",
        "lbf·in": "N·m",
        "lbf·ft": "N·m",
        "°F": "°C",
        "psi": "kPa",
    },
    "imperial": {
        "kg": "lb",
        "g": "oz",
        "mm": "in",
        "cm": "in",
        "m": "ft",
        "kg·m": "lb·in",
        "N·m": "lbf·in",
        "°C": "°F",
        "kPa": "psi",
        "bar": "psi",
        "hPa": "psi",
    },
}
"""Into which unit of a system the units of the other are converted: mass, length, moment, torque, temperature, pressure; no others."""


def converted(written: str, symbol: str, rounding: Rounding = "nearest") -> tuple[str, str] | None:
    """A figure in the unit of the other system: number and unit; None where it has none.

    It is at least as fine as the last digit written and has no fewer significant figures, so that it rounds back to what was written;
    a limit is a digit finer, since it is not rounded to the nearest.

    Args:
        written: a decimal or a mixed fraction, as it is printed.
        symbol: its unit, as it is printed.
        rounding: "nearest" is half-up; a limit is rounded to its safe side, "down" where at most so much is allowed, else "up".

    >>> converted("31.5", "lb"), converted("46", "lbf·in", "down"), converted("3/16", "in")
    (('14.29', 'kg'), ('5.19', 'N·m'), ('4.763', 'mm'))
    """
    target = next((pairs[symbol] for pairs in SYSTEMS.values() if symbol in pairs), None)
    if target is None:
        return None
    text = written.replace("\u2212", "-").replace("\u00a0", " ").removeprefix("+")
    sign, figure = (Decimal(-1), text[1:]) if text.startswith("-") else (Decimal(1), text)
    if "/" in figure:
        whole, _, part = figure.rpartition(" ")
        upper, _, lower = part.partition("/")
        magnitude = Decimal(whole or 0) + Decimal(upper) / Decimal(lower)
    else:
        magnitude = Decimal(figure)
    fine = -int(magnitude.as_tuple().exponent)
    of_old, of_new = unit(symbol), unit(target)
    other = of_new.from_si(of_old.to_si(sign * magnitude))
    step = PRECISION.divide(of_old.factor, of_new.factor).scaleb(-fine)
    count = -step.adjusted() + (rounding != "nearest")
    figures = len(magnitude.as_tuple().digits) - 1 - other.adjusted() if other else 0
    done = _TRUSTED.plus(other).quantize(_place(max(0, count, figures)), _ROUNDINGS[rounding], PRECISION)
    return plain(done or abs(done)), of_new.symbol
