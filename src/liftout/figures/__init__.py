"""Drawings: facts and worked values in; SVG, caption and alternative text out. One file a drawing.

A drawing is as wide as the text of a page (`drawing.WIDTH`), so it prints at its own size, letters included.
"""

from liftout.figures.drawing import Drawing

__all__ = ["Drawing"]
