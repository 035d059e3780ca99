"""Weight and balance."""
