"""The command line: one file a command, heavy imports inside the function."""
