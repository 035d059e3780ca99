"""Weights, moments and limit lines."""
