"""Circuits, sources and loads."""
