"""What comes out, and what stays behind."""
