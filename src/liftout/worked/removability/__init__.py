"""Where items are."""
