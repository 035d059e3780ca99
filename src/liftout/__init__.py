"""liftout: proves on paper that removable equipment is soundly fitted in a light aircraft and stays removable."""

from importlib.metadata import PackageNotFoundError, version

try:
    __version__ = version("liftout")
except PackageNotFoundError:  # run from a bare checkout, without an installation
    __version__ = "0+checkout"
