"""What a command found, printed for a program."""

from __future__ import annotations


def print_json(said: object) -> None:
    """Print what `--json` asks for."""
    import json

    print(json.dumps(said, ensure_ascii=False, indent=1))
