"""Pressure rise by flow of what drives a liquid or the air: a pump or a fan."""

from liftout.job.values import Flow, Grounded, Pressure, Word, told


class CurvePoint(Grounded):
    """A point of the curve of a pump or a fan."""

    flow: Flow = told("flow")
    pressure: Pressure = told("pressure rise")


class Driven(Grounded):
    """A pump or a fan with its curve."""

    item: Word = told("the item it sits in")
    curve: tuple[CurvePoint, ...] = told("pressure rise by flow, from no flow to the largest")
