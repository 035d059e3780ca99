"""Every example in a docstring of physics runs and gives what it says."""

import doctest
import importlib
import pkgutil

import pytest

from liftout import physics

MODULES = sorted(module.name for module in pkgutil.iter_modules(physics.__path__))


@pytest.mark.parametrize("name", MODULES)
def test_examples_of_a_module_hold(name: str) -> None:
    result = doctest.testmod(importlib.import_module(f"liftout.physics.{name}"))
    assert result.failed == 0
    assert result.attempted > 0, "a module of physics shows at least one example"
