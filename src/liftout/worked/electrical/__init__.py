"""Currents and what feeds them."""
