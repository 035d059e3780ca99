"""Liquids and what they weigh."""
