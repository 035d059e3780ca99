"""Load factors."""
