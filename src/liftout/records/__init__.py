"""Dockets on disk: written once, verified, decided on, registered."""
