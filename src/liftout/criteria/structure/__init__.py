"""What holds the equipment, and what it stands on."""
