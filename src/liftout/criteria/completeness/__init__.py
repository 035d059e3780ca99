"""What must be there: silence never passes."""
