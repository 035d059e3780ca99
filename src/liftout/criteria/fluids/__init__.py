"""Liquid loops."""
