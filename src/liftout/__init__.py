"""liftout: proves on paper that removable equipment is soundly fitted in a light aircraft and stays removable."""

__version__ = "0.8.2"
