"""A shop's own chapter templates, rendered where they can do no harm. This file runs as a program of its own, and imports nothing of ours.

It reads one JSON object from its standard input and writes one to its standard output:

    {"shipped": {name: text}, "seconds": 10, "bytes": 536870912, "chapters": [{"template": name, "text": text, "values": {...}}]}
    {"chapters": [{"markdown": text, "shelf": [[tool, arguments, named], ...]}]}     or     {"fault": {"template", "line", "message"}}

What keeps a template in: values are texts, numbers, lists and mappings, of which only entries can be reached, never an attribute;
nothing but macros and the tools of chapters can be called; what computes or joins is refused when a template is read; the
process has little time and memory, opens nothing, and is told nothing of where it runs.
"""

from __future__ import annotations

import contextlib
import json
import re
import sys
from typing import Any, Final

TOOLS: Final = ("common", "working", "tabled", "figure", "checklist", "signature", "fields", "table")
"""What a template puts blocks with that are no text (liftout.documents.blocks.Shelf)."""
FILTERS: Final = ("length", "first", "last", "groupby", "selectattr", "rejectattr", "map", "list")
OUTPUT_MAX: Final = 4_000_000
"""Of everything together, in bytes; the longest chapter of a demonstration has a twentieth of it."""
HANDLE: Final = "#"
"""The entry of a mapping that stands for an object which stayed outside: its number."""
PLACES: Final = "()"
"""The entry of a mapping that stands for an object which can be taken apart by place."""

_PUNCTUATION: Final = re.compile(r"[!-/:-@\[-`{-~]")
_SPACE: Final = re.compile(r"[ \t\r\n\f\v\x85\u2028\u2029]+")
_LOOP: Final = frozenset({"index", "index0", "first", "last", "length", "revindex", "revindex0", "previtem", "nextitem", "depth"})
_CLOSED: Final = ("open", "import", "os.", "socket", "subprocess", "ctypes", "shutil", "pathlib", "mmap", "pickle", "marshal", "tempfile", "urllib")


def one_line(text: str) -> str:
    """`text` with one space for each run of white space; a space that does not break stays."""
    return _SPACE.sub(" ", text)


def referenced(text: str) -> str:
    """`text` as Markdown that prints exactly as typed: its punctuation as character references, on one line."""
    return _PUNCTUATION.sub(lambda found: f"&#{ord(found[0])};", one_line(text))


def refused_nodes() -> tuple[Any, ...]:
    """What a chapter may not do: it prints and loops; it computes nothing and joins no strings."""
    from jinja2 import nodes

    return (nodes.Add, nodes.Sub, nodes.Mul, nodes.Div, nodes.FloorDiv, nodes.Mod, nodes.Pow, nodes.Concat)


REFUSED: Final = "a chapter prints and loops; it computes nothing and joins no strings"


class Told(dict):  # type: ignore[type-arg]
    """An object that stayed outside: its number, and what of it may be printed."""

    def __iter__(self) -> Any:
        return iter(self[PLACES]) if PLACES in self else super().__iter__()


def _environment(templates: dict[str, str], shelf: list[Any]) -> Any:
    from jinja2 import DictLoader, StrictUndefined, TemplateSyntaxError, Undefined
    from jinja2.environment import TemplateModule
    from jinja2.exceptions import SecurityError
    from jinja2.filters import _GroupTuple  # the pair that groupby hands out has no public name
    from jinja2.runtime import LoopContext, Macro
    from jinja2.sandbox import ImmutableSandboxedEnvironment
    from markupsafe import Markup

    class Room(ImmutableSandboxedEnvironment):
        """Entries of mappings and places of lists, and nothing else of anything."""

        def _parse(self, source: str, name: str | None, filename: str | None) -> Any:
            tree = super()._parse(source, name, filename)
            node = next(iter(tree.find_all(refused_nodes())), None)
            if node is not None:
                raise TemplateSyntaxError(REFUSED, node.lineno, name, filename)
            return tree

        def getattr(self, obj: Any, attribute: str) -> Any:
            if isinstance(obj, dict):
                return obj[attribute] if attribute in obj else self.undefined(obj={}, name=attribute)
            if (isinstance(obj, LoopContext) and attribute in _LOOP) or (isinstance(obj, _GroupTuple) and attribute in ("grouper", "list")):
                return getattr(obj, attribute)
            if isinstance(obj, TemplateModule) and isinstance(vars(obj).get(attribute), Macro):
                return vars(obj)[attribute]
            raise SecurityError(f'"{attribute}" cannot be reached: only entries of what the chapter is given can')

        def getitem(self, obj: Any, argument: Any) -> Any:
            if isinstance(obj, dict) and isinstance(argument, str):
                return obj[argument] if argument in obj else self.undefined(obj={}, name=argument)
            if isinstance(obj, list | tuple) and isinstance(argument, int | slice):
                return obj[argument]
            if isinstance(obj, _GroupTuple):
                return self.getattr(obj, argument)
            raise SecurityError(f'"{argument}" cannot be reached: only entries of what the chapter is given can')

        def is_safe_callable(self, obj: Any) -> bool:
            return isinstance(obj, Macro | Undefined) or any(obj is tool for tool in tools.values())

    def printed(value: Any) -> Any:
        if isinstance(value, Markup):
            return value
        if isinstance(value, StrictUndefined):
            str(value)
        if isinstance(value, bool) or not isinstance(value, str | int):
            raise SecurityError("this has no printed form: print a text or a whole number")
        return Markup(referenced(str(value)))  # noqa: S704 - escaped here

    def joined(values: Any, separator: str = "") -> Any:
        return printed(separator).join(printed(value) for value in values)

    def tool(name: str) -> Any:
        def put(*arguments: Any, **named: Any) -> Any:
            shelf.append([name, arguments, named])
            return Markup(f"\n```{name}\n{len(shelf)}\n```\n")  # noqa: S704 - a fence and a key, no text

        return put

    tools = {name: tool(name) for name in TOOLS}
    room = Room(
        loader=DictLoader(templates),
        undefined=StrictUndefined,
        autoescape=True,
        finalize=printed,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    room.filters = {name: room.filters[name] for name in FILTERS} | {"join": joined}
    room.globals = dict(tools)
    return room


def _told(value: Any) -> Any:
    if isinstance(value, list):
        return tuple(map(_told, value))
    if isinstance(value, dict):
        return Told({key: _told(inner) for key, inner in value.items()})
    return value


def _lock(seconds: int, most_bytes: int) -> None:
    """From here on there is little time, little memory, and nothing to open."""
    import resource

    resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds + 1))
    resource.setrlimit(resource.RLIMIT_AS, (most_bytes, most_bytes))
    resource.setrlimit(resource.RLIMIT_FSIZE, (OUTPUT_MAX, OUTPUT_MAX))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    resource.setrlimit(resource.RLIMIT_NOFILE, (3, 3))

    def closed(event: str, _: Any) -> None:
        if event.startswith(_CLOSED):
            raise PermissionError(event)

    sys.addaudithook(closed)


def _line(error: BaseException) -> int:
    """The line of the template that an error comes from."""
    line, step = getattr(error, "lineno", 0) or 0, error.__traceback__
    while step is not None:
        if step.tb_frame.f_globals.get("__jinja_template__") is not None or "<template>" in step.tb_frame.f_code.co_filename:
            line = step.tb_lineno
        step = step.tb_next
    return line


def _rendered(asked: dict[str, Any]) -> dict[str, Any]:
    from jinja2 import TemplateError

    made, length = [], 0
    for chapter in asked["chapters"]:
        shelf: list[Any] = []
        room = _environment({**asked["shipped"], chapter["template"]: chapter["text"]}, shelf)
        try:
            markdown = room.get_template(chapter["template"]).render(_told(chapter["values"]))
        except (
            TemplateError,
            PermissionError,
            RecursionError,
            MemoryError,
            ArithmeticError,
            LookupError,
            TypeError,
            ValueError,
            AttributeError,
        ) as error:
            message = {MemoryError: "takes more memory than a chapter needs", RecursionError: "calls itself without an end"}.get(
                type(error), str(error)
            )
            name = getattr(error, "name", None) or chapter["template"]
            return {"fault": {"template": name if name in asked["shipped"] else chapter["template"], "line": _line(error), "message": message}}
        made.append({"markdown": str(markdown), "shelf": shelf})
        length += len(markdown)
        if length > OUTPUT_MAX // 4:
            return {"fault": {"template": chapter["template"], "line": 0, "message": "prints more than any chapter needs"}}
    return {"chapters": made}


def _warm() -> None:
    """Load all that rendering and failing need, while modules can still be loaded."""
    from jinja2 import TemplateError

    said = "{% macro m() %}é\"\\ {{ caller() }}{% endmacro %}{% call m() %}{% for a in b|groupby('c') %}{{ a.list|map(attribute='c')|join(', ') }}{% endfor %}{% endcall %}"
    for text in (said, "{{ 1 + 1 }}", "{{ q }}", "{% if %}"):
        with contextlib.suppress(TemplateError):
            _environment({"warm": text}, []).get_template("warm").render(_told({"b": [{"c": "&"}]}))


def main() -> None:
    """Read, render, write."""
    import jinja2.debug  # noqa: F401 - wanted when a template fails, and nothing can be imported then

    asked = json.loads(sys.stdin.buffer.read())
    _warm()
    try:
        _lock(int(asked["seconds"]), int(asked["bytes"]))
    except (ImportError, OSError, ValueError):  # Windows has no such bounds; macOS may refuse the one of memory
        told = {"fault": {"template": "", "line": 0, "message": "this system cannot limit what a template takes, so none of a shop's own is run"}}
    else:
        told = _rendered(asked)
    written = json.dumps(told).encode()
    if len(written) > OUTPUT_MAX:
        written = json.dumps({"fault": {"template": "", "line": 0, "message": "prints more than any chapter needs"}}).encode()
    sys.stdout.buffer.write(written)
    sys.stdout.buffer.flush()


if __name__ == "__main__":
    main()
