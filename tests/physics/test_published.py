"""Printed answers of publications come out, and a physics that is two per cent off is found out."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import Any

import pytest

from tests.physics.published import Printed, cases, functions_used, named

PRINTED = cases()


@pytest.mark.parametrize("case", PRINTED, ids=lambda case: case.label)
def test_ours_is_the_printed_answer(case: Printed) -> None:
    assert case.holds(), f"{case.place}: expected {case.erratum or case.printed} within {case.within}, ours is {case.ours_si()} in SI"


@pytest.mark.parametrize("case", [case for case in PRINTED if case.erratum], ids=lambda case: case.label)
def test_an_erratum_is_one(case: Printed) -> None:
    """What is called a misprint lies outside the tolerance, and says why."""
    assert case.reason
    assert not dataclasses.replace(case, erratum="").holds()


def test_there_are_enough_of_them_and_each_family_has_some() -> None:
    assert len({case.id for case in PRINTED}) >= 60
    assert {case.id.partition("-")[0] for case in PRINTED} >= {"EL", "WB", "ST", "TUR", "LAM", "ISA", "HBL"}


def larger(found: Any) -> Any:
    """The same result, two per cent larger in every figure."""
    if isinstance(found, bool | str) or found is None:
        return found
    if isinstance(found, int | float):
        return found * 1.02
    if isinstance(found, tuple):
        parts = [larger(part) for part in found]
        return type(found)(*parts) if hasattr(found, "_fields") else tuple(parts)
    if dataclasses.is_dataclass(found) and not isinstance(found, type):
        return dataclasses.replace(found, **{field.name: larger(getattr(found, field.name)) for field in dataclasses.fields(found)})
    return found


@pytest.mark.parametrize("name", functions_used(PRINTED))
def test_two_per_cent_more_fails_a_case(name: str) -> None:
    function: Callable[..., Any] = named(name)

    def off(**given: Any) -> Any:
        return larger(function(**given))

    of_this = [case for case in PRINTED if case.function == name]
    assert not all(case.holds(off) for case in of_this), f"no published case would notice that {name} is two per cent off"
