"""Where templates/, site/ and jobs/ are: shipped inside the package in a wheel, at the top of a checkout."""

from __future__ import annotations

from functools import cache
from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


@cache
def folder(name: str) -> Path:
    """The folder `name` (`templates`, `site` or `jobs`).

    Raises:
        FileNotFoundError: when neither the package nor the checkout holds it: the installation is incomplete.
    """
    for place in (_PACKAGE / "shipped" / name, _PACKAGE.parents[1] / name):
        if place.is_dir():
            return place
    raise FileNotFoundError(f"this installation of liftout has no folder {name!r}: install it again")


@cache
def lock_file() -> Path:
    """The locked libraries that an installation of this release needs; tools of developers have no say in papers.

    Raises:
        FileNotFoundError: when the installation is incomplete.
    """
    for place in (_PACKAGE / "shipped" / "runtime.lock", _PACKAGE.parents[1] / ".ci" / "runtime.lock"):
        if place.is_file():
            return place
    raise FileNotFoundError("this installation of liftout has no runtime.lock: install it again")
