"""Parts that stand out into the air, to scale, from the side and from above, with the loads of the air and the fasteners."""

from __future__ import annotations

from typing import Final

from liftout.facts import Fact, Facts
from liftout.facts.fact import si_of
from liftout.facts.outside_parts import OutsidePart
from liftout.figures.amounts import said
from liftout.figures.drawing import WIDTH, Drawing, Key, drawing, to_scale
from liftout.figures.keys import scale_bar
from liftout.figures.lettering import LINE, MM_PER_INCH, SHIFT
from liftout.figures.placing import Box
from liftout.figures.svg import CHAIN, FIRM, HEAVY, THIN, Canvas

LONG: Final = 96.0
"""Most paper that an outside part takes along, in mm."""

TALL: Final = 50.0
"""Most paper that each of its two views takes upwards."""

LEFT: Final = 46.0


def outside_part_drawings(facts: Facts) -> list[Drawing]:
    """Of each part of which the job gives length, width and height."""
    return [outside_part_drawing(part) for part in facts.outside_parts if all(isinstance(one, Fact) for one in _needed(part))]


def _needed(part: OutsidePart) -> tuple[object, ...]:
    return part.length, part.width, part.stands_out, part.lever, part.to_rear_edge, part.foremost


def outside_part_drawing(part: OutsidePart) -> Drawing:
    """The part as the box that holds it: from the side on its skin, and from above with its fasteners' foremost row."""
    length, width, out, lever, rear = (si_of(one) * 1000 for one in (part.length, part.width, part.stands_out, part.lever, part.to_rear_edge))
    scale = min(LONG / length, TALL / out, TALL / width)
    canvas, skin = Canvas(WIDTH, out * scale + width * scale + 62), 20 + out * scale
    right = LEFT + length * scale
    with canvas.group(f"{part.name}, from the side"):
        canvas.text((1, 4), "from the side", bold=True)
        canvas.line((LEFT - 26, skin), (right + 12, skin), HEAVY)
        canvas.text((LEFT + 2, skin + 4.2), "skin")
        canvas.rectangle(Box(LEFT, skin - out * scale, right, skin), FIRM)
        at = skin - lever * scale
        canvas.arrow((LEFT - 24, at), (LEFT, at), FIRM)
        canvas.text((LEFT - 24, at - 1.5), "drag")
        canvas.arrow(((LEFT + right) / 2, skin - out * scale), ((LEFT + right) / 2, skin - out * scale - 12), FIRM)
        canvas.text(((LEFT + right) / 2 + 2, skin - out * scale - 8), "lift")
        canvas.line((right, skin - out * scale), (right + 9, skin - out * scale), THIN)
        canvas.dimension((right + 7, skin - out * scale), (right + 7, skin), said(part.stands_out))
        canvas.line((LEFT - 8, at), (LEFT - 8, skin), THIN)
        canvas.text((LEFT - 9, max((at + skin) / 2, at + LINE) + SHIFT), said(part.lever), anchor="end")
    top = skin + 16
    with canvas.group(f"{part.name}, from above"):
        canvas.text((1, top - 4), "from above", bold=True)
        canvas.rectangle(Box(LEFT, top, right, top + width * scale), FIRM)
        row = right - rear * scale
        count = int(si_of(part.foremost))
        for n in range(count):
            y = top + width * scale * (n + 0.5) / count
            canvas.circle((max(row, LEFT), y), 0.8, THIN, "#fff")
        canvas.line((max(row, LEFT), top - 3), (max(row, LEFT), top + width * scale + 3), CHAIN)
        canvas.text((max(row, LEFT), top - 4), f"foremost row, {count}", anchor="middle")
        canvas.dimension((LEFT - 8, top), (LEFT - 8, top + width * scale), said(part.width))
        low = top + width * scale
        for x in (max(row, LEFT), LEFT, right):
            canvas.line((x, low + 1), (x, low + 14), THIN)
        canvas.dimension((max(row, LEFT), low + 6), (right, low + 6), said(part.to_rear_edge))
        canvas.dimension((LEFT, low + 13), (right, low + 13), said(part.length))
    canvas.text((LEFT - 26, top + width * scale / 2), "forward", bold=True)
    canvas.arrow((LEFT - 28, top + width * scale / 2 - SHIFT), (LEFT - 40, top + width * scale / 2 - SHIFT))
    scale_bar(canvas, LEFT, low + 25, scale * MM_PER_INCH, "in")
    title = f"{part.name.capitalize()} as the box that holds it: from the side, and from above."
    told = Key(("What", "Value"), tuple(_told(part)), ("left", "left"), f"Outside part: {part.name}")
    words = "; ".join(f"{what} {value}" for what, value in told.rows)
    return drawing(canvas, f"outside-{part.name}", title, f"{title} The air pushes it aft and lifts it off the skin. {words}.", to_scale(scale), told)


def _told(part: OutsidePart) -> list[tuple[str, str]]:
    return [
        ("what it is", f"{part.what}"),
        ("length, width, stands out", f"{said(part.length)}, {said(part.width)}, {said(part.stands_out)}"),
        ("drag acts above the skin at", said(part.lever)),
        ("foremost row to rear edge", f"{said(part.to_rear_edge)}, {said(part.foremost)} fasteners in the row"),
        ("frontal area", said(part.frontal_area)),
        ("area of skin covered", said(part.plan_area)),
        ("fasteners", f"{said(part.fasteners)} of {said(part.size)}"),
        ("edge distance", said(part.edge_distance)),
        ("sheet", f"{said(part.sheet.material)}, {said(part.sheet.thickness)}"),
    ]
