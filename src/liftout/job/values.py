"""How single values are written in a job: quantities, words, dates, each with its evidence where there is some.

Every model is frozen, forbids unknown keys and has no default for a value that safety hangs on: what is not
said is None here and a `Missing` in the facts, with what to measure taken from `asked`.
"""

import datetime
import re
from collections.abc import Callable
from typing import Annotated, Any, Literal, Self

from liftout.job.part import Key, Part, asked, checked, chosen, group, optional, several, told, unasked
from liftout.quantities import EXAMPLES, Quantity, QuantityError, how_one_is_written, read

__all__ = ["Key", "Part", "asked", "checked", "chosen", "group", "optional", "several", "told", "unasked"]


class Spelt:
    """How a value is written: reads it, and says so in the JSON Schema."""

    def __init__(self, told: Callable[[object], object], schema: dict[str, Any]) -> None:
        self.told = told
        self.schema = schema

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> Any:
        from pydantic_core.core_schema import no_info_before_validator_function

        return no_info_before_validator_function(self.told, handler(source))

    def __get_pydantic_json_schema__(self, core_schema: Any, handler: Any) -> Any:
        return self.schema


def _yes_no(said: object) -> bool:
    if said in ("yes", "no"):
        return said == "yes"
    raise QuantityError(f'"{said}" is not an answer.', "Write yes or no.")


def _date(said: object) -> datetime.date:
    wanted = re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", str(said))
    try:
        return datetime.date.fromisoformat(wanted[0] if wanted else "")
    except ValueError:
        raise QuantityError(f'"{said}" is not a date.', "Write year, month, day: 2026-11-20.") from None


def word(said: object) -> str:
    """One line of text, without blanks around it.

    Raises:
        QuantityError: when it is empty, or no text.
    """
    if isinstance(said, str) and said.strip():
        return said.strip()
    raise QuantityError("is empty." if said is None or isinstance(said, str) else "holds keys or a list.", "Write one line of text.")


def _mark(said: object) -> str:
    name = word(said)
    if not re.fullmatch(_FOLDER, name):
        raise QuantityError(f'"{name}" cannot name a folder.', "Write letters, digits, points and hyphens, at most 40, no point last: SFW-0412.")
    if re.fullmatch(_DEVICE, name, re.IGNORECASE):
        raise QuantityError(f'"{name}" cannot name a folder: on Windows it is a device.', "Put the shop's letters before it: SFW-0412.")
    return name


_FOLDER = "[A-Za-z0-9](?:[A-Za-z0-9._-]{0,38}[A-Za-z0-9_-])?"
_DEVICE = r"(?:con|prn|aux|nul|com[0-9]|lpt[0-9])(?:\..*)?"
"""Names that Windows keeps for devices, whatever follows a point; the jobs folder may lie on a share."""
Mark = Annotated[str, Spelt(_mark, {"type": "string", "pattern": f"^{_FOLDER}$"})]
"""A word that also names a folder, on any system: number and revision of a docket."""
_NOTHINGS = frozenset({"none", "no", "nothing", "nil", "n/a", "na", "-", "?", "tbd", "tba", "unknown", "not fitted"})


def _thing(said: object) -> str:
    name = word(said)
    if name.lower() in _NOTHINGS:
        raise QuantityError(f'"{name}" names no thing.', "Name it; where there is none, leave the key out.")
    return name


Thing = Annotated[str, Spelt(_thing, {"type": "string"})]
"""A word that names something there is."""
Word = Annotated[str, Spelt(word, {"type": "string"})]
YesNo = Annotated[bool, Spelt(_yes_no, {"enum": ["yes", "no"]})]
Date = Annotated[datetime.date, Spelt(_date, {"type": "string", "format": "date"})]


Sign = Literal["either", "not negative", "positive"]


def _quantity(dimension: str, sign: Sign, *, whole: bool = False, share: bool = False, example: str = "") -> "Written":
    like = f'Write one {dimension}, for example "{EXAMPLES[dimension]}".'
    shown = example or ("80 %" if share else EXAMPLES[dimension])

    def reading(said: object) -> Quantity:
        if not isinstance(said, str):
            raise QuantityError("holds keys, a list or nothing." if said is not None else "is empty.", like)
        quantity = read(said, dimension)
        if (sign == "positive" and quantity.magnitude <= 0) or (sign == "not negative" and quantity.magnitude < 0):
            raise QuantityError(f'"{said}" cannot be{" nothing or" if sign == "positive" else ""} less than nothing.', like)
        if whole and quantity.magnitude != quantity.magnitude.to_integral_value():
            raise QuantityError(f'"{said}" is a count.', "Write a whole number.")
        if share and quantity.si > 1:
            raise QuantityError(f'"{said}" is more than the whole.', 'Write a share of it, from 0 % to 100 %, for example "25 %".')
        return quantity

    return Written(
        reading,
        {"type": "string", "examples": [shown], "description": f"a {dimension} with its unit"},
        _tolerance(dimension),
        dimension,
        shown,
    )


def _tolerance(dimension: str) -> Callable[[object], object]:
    """Reads how far a value may lie from what is written."""
    apart = "temperature difference" if dimension == "temperature" else dimension

    def reading(said: object) -> Quantity:
        try:
            quantity = read(said if isinstance(said, str) else "", apart)
        except QuantityError as error:
            raise QuantityError(f"tolerance {error.wrong}", error.right) from None
        if quantity.magnitude <= 0:
            raise QuantityError(f'tolerance "{said}" leaves no room.', f'Write how far the value may lie from it, for example "{EXAMPLES[apart]}".')
        return quantity

    return reading


def _either(*dimensions: str) -> "Written":
    """A quantity that may be told in one dimension or in another: fuel by volume or by weight."""
    each = [_quantity(dimension, "not negative") for dimension in dimensions]
    examples = [f'one {dimension}, for example "{EXAMPLES[dimension]}"' for dimension in dimensions]
    like = f"Write {', or '.join(examples)}."

    def reading(said: object) -> object:
        faults = []
        for written in each:
            try:
                return written.reading(said)
            except QuantityError as error:
                faults.append(error)
        cure = faults[0].right.removesuffix(how_one_is_written(dimensions[0]))
        raise QuantityError(faults[0].wrong, f"{cure if cure != faults[0].right else ''}{like}")

    return Written(reading, {"anyOf": [written.schema for written in each]})


class Written(Spelt):
    """How the value of a stated value is written, which may stand there bare or with its evidence.

    One part serves all of them; a part for each dimension would take longer to build than a job to assess.
    """

    def __init__(
        self,
        reading: Callable[[object], object],
        schema: dict[str, Any],
        tolerance: Callable[[object], object] | None = None,
        dimension: str = "",
        example: str = "",
    ) -> None:
        super().__init__(self._as_keys, schema)
        self.example = example
        self.reading = reading
        self.dimension = dimension
        self.tolerance = tolerance

    def __get_pydantic_json_schema__(self, core_schema: Any, handler: Any) -> Any:
        return {"anyOf": [self.schema, handler(core_schema)]}

    def _as_keys(self, said: object) -> object:
        """What a person wrote, bare or with its evidence, as the keys of a stated value with the value read."""
        told = dict(said) if isinstance(said, dict) else {"value": said}
        if "value" in told:
            told["value"] = self.reading(told["value"])
        if told.get("tolerance") is not None:
            if self.tolerance is None:
                raise QuantityError("has a tolerance, and is no measured quantity.", "Leave the tolerance out.")
            told["tolerance"] = self.tolerance(told["tolerance"])
        return told


class Measured(Part):
    """Measured on this aircraft or item."""

    by: Word = told("who measured")
    date: Date = told("the day of the measurement")
    instrument: Word = told("what was measured with")
    calibration_due: Date | None = optional("until when the instrument's calibration holds")

    @checked
    def _calibrated(self) -> Self:
        if self.calibration_due is not None and self.calibration_due < self.date:
            raise QuantityError(
                "the calibration had run out on the day of the measurement.", "Measure again with a calibrated instrument, or correct the dates."
            )
        return self


class Documented(Part):
    """Taken from a document."""

    number: Word = told("number of the document")
    revision: Word | None = optional("its revision or edition")
    page: Word | None = optional("page or place in it")


class Grounded(Part):
    """A part whose values may rest on one thing together: what is said here holds for every bare value below."""

    measured: Measured | None = optional("by whom, when, with what everything below was measured")
    document: Documented | None = optional("the document that everything below is taken from")
    nameplate: Word | None = optional("the nameplate that everything below is read from")

    @checked
    def _one_ground(self) -> Self:
        if (self.measured, self.document, self.nameplate).count(None) < 2:
            raise QuantityError("rests on more than one thing.", "Keep one of measured, document, nameplate.")
        return self


class Section(Grounded):
    """A part that a job may also decline: `none:` with the reason, which is printed for the inspector to initial."""

    none: Word | None = unasked("the reason why this does not apply to this fit; printed for the inspector to initial")

    @checked
    def _one_or_the_other(self) -> Self:
        if self.none is not None and self.keys_said - {"none"}:
            raise QuantityError("says none, and more besides.", "Keep either none with its reason, or the rest.")
        return self


class Stated(Grounded):
    """A value with what it rests on. Written as the bare value it rests on what is said for its part, or is merely stated."""

    value: Any = told("the value itself")
    stated: Literal["merely"] | None = optional("merely: nothing stands behind this value, whatever is said for its part")
    tolerance: Any = optional("how far the true value may lie from it, either way, in a unit of the same kind")


Length = Annotated[Stated, _quantity("length", "not negative")]
Bore = Annotated[Stated, _quantity("length", "positive")]
Arm = Annotated[Stated, _quantity("length", "either")]
Mass = Annotated[Stated, _quantity("mass", "not negative")]
Weight = Annotated[Stated, _quantity("mass", "positive")]
SignedMass = Annotated[Stated, _quantity("mass", "either")]
Moment = Annotated[Stated, _quantity("moment", "either")]
Volume = Annotated[Stated, _quantity("volume", "not negative")]
Room = Annotated[Stated, _quantity("volume", "positive")]
Fuel = Annotated[Stated, _either("volume", "mass")]
Angle = Annotated[Stated, _quantity("angle", "not negative")]
Warmer = Annotated[Stated, _quantity("temperature difference", "not negative")]
Density = Annotated[Stated, _quantity("density", "positive")]
Area = Annotated[Stated, _quantity("area", "positive")]
Current = Annotated[Stated, _quantity("current", "not negative")]
Rating = Annotated[Stated, _quantity("current", "positive")]
Voltage = Annotated[Stated, _quantity("voltage", "positive")]
Power = Annotated[Stated, _quantity("power", "positive")]
HeatFlux = Annotated[Stated, _quantity("heat flux", "not negative")]
HeatTransfer = Annotated[Stated, _quantity("heat transfer coefficient", "not negative")]
Heat = Annotated[Stated, _quantity("power", "not negative")]
Resistance = Annotated[Stated, _quantity("resistance", "not negative")]
Charge = Annotated[Stated, _quantity("charge", "positive")]
Temperature = Annotated[Stated, _quantity("temperature", "either")]
Pressure = Annotated[Stated, _quantity("pressure", "not negative")]
RatedPressure = Annotated[Stated, _quantity("pressure", "positive")]
Flow = Annotated[Stated, _quantity("volume flow", "not negative")]
RatedFlow = Annotated[Stated, _quantity("volume flow", "positive")]
Force = Annotated[Stated, _quantity("force", "positive")]
Time = Annotated[Stated, _quantity("time", "positive")]
ShortTime = Annotated[Stated, _quantity("time", "positive", example="0.2 s")]
"""How long a current lasts or is borne: a minute for an example would lead astray."""
Speed = Annotated[Stated, _quantity("speed", "positive")]
Number = Annotated[Stated, _quantity("number", "not negative")]
Share = Annotated[Stated, _quantity("number", "not negative", share=True)]
Stretch = Annotated[Stated, _quantity("number", "positive", share=True)]
EngineSpeed = Annotated[Stated, _quantity("engine speed", "positive")]
FieldStrength = Annotated[Stated, _quantity("magnetic field", "positive")]
Torque = Annotated[Stated, _quantity("torque", "positive")]
LinearResistance = Annotated[Stated, _quantity("resistance per length", "positive")]
RunningLoad = Annotated[Stated, _quantity("mass per length", "positive")]
FloorLoad = Annotated[Stated, _quantity("mass on an area", "positive")]
Multiple = Annotated[Stated, _quantity("number", "positive")]
Count = Annotated[Stated, _quantity("number", "not negative", whole=True)]
CountFromOne = Annotated[Stated, _quantity("number", "positive", whole=True)]
Text = Annotated[Stated, Written(word, {"type": "string"})]
Choice = Annotated[Stated, Written(_yes_no, {"enum": ["yes", "no"]})]
