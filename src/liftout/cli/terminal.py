"""What a terminal shows and a file does not: colour and weight of letters."""

from __future__ import annotations

import os
import sys
from typing import Literal

Style = Literal["bold", "red", "yellow"]
_CODES: dict[Style, str] = {"bold": "1", "red": "31", "yellow": "33"}


def styled(text: str, style: Style | None) -> str:
    """The text in a style where standard output is a terminal that shows it (common practice: the variable NO_COLOR says no).

    The older of the two terminals of Windows prints the codes themselves; the newer one says who it is.
    """
    if style is None or os.environ.get("NO_COLOR") or not sys.stdout.isatty() or (os.name == "nt" and "WT_SESSION" not in os.environ):
        return text
    return f"\x1b[{_CODES[style]}m{text}\x1b[0m"
