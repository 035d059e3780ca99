"""Chapters as templates: Jinja to Markdown to blocks.

    blocks = templating.chapter("manual/electrical.md.j2", aircraft=aircraft, findings=findings)

In a template stand, beside the values given to `chapter`:

    {{ common(sheets) }}  {{ working(finding) }}  {{ tabled(sheets) }}  {{ figure(drawing) }}  {{ checklist(rows) }}  {{ table(head, rows, alignment, caption) }}
    {{ signature(lines, title, statement) }}  {{ fields(pairs) }}       each at the left margin, on a line of its own
    {% from "shared/alerts.md.j2" import warning, caution, note %}      {{ warning("...") }} or {% call warning() %}...{% endcall %}

Every value is escaped, so that it prints exactly as it was typed: punctuation becomes character references, which
Markdown never reads as its own, white space becomes one space. A template prints and loops; it computes nothing
and joins no strings, and a value that has no printed form of its own (None, a float, an object) is an error.
"""

from __future__ import annotations

import re
from contextvars import ContextVar
from decimal import Decimal
from enum import StrEnum
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from liftout.documents.blocks import Block, BlockError, Shelf, one_line, read
from liftout.quantities import Quantity
from liftout.resources import folder

if TYPE_CHECKING:
    from collections.abc import Iterable

    from jinja2 import Environment
    from markupsafe import Markup

_SHELF: Final[ContextVar[Shelf]] = ContextVar("shelf of the chapter being rendered")
_TOOLS: Final = ("common", "working", "tabled", "figure", "checklist", "signature", "fields", "table")
_FILTERS: Final = ("length", "first", "last", "groupby", "selectattr", "rejectattr", "map", "list")
_PUNCTUATION: Final = re.compile(r"[!-/:-@\[-`{-~]")


def escaped(value: object) -> Markup:
    """`value` as Markdown that prints exactly as typed.

    Raises:
        BlockError: for a value without a printed form of its own.
    """
    from jinja2 import Undefined
    from markupsafe import Markup

    if isinstance(value, Markup):
        return value
    if isinstance(value, Undefined):
        str(value)  # says which name, and in which place
    if not isinstance(value, str | int | Decimal | Quantity) or isinstance(value, bool):
        raise BlockError(f"{value!r} has no printed form: give the template a text, a whole number, a decimal or a quantity")
    text = value.value if isinstance(value, StrEnum) else str(value)
    return Markup(_PUNCTUATION.sub(lambda found: f"&#{ord(found[0])};", one_line(text)))  # noqa: S704 - escaped here


def _joined(values: Iterable[object], separator: str = "") -> Markup:
    return escaped(separator).join(escaped(value) for value in values)


def _tool(name: str) -> Any:
    def put(*arguments: Any, **named: Any) -> Markup:
        from markupsafe import Markup

        return Markup(getattr(_SHELF.get(), name)(*arguments, **named))  # noqa: S704 - a fence and a key, no text

    return put


def chapters_environment(templates: Path) -> Environment:
    """The environment that chapter templates below the folder `templates` are rendered in."""
    from jinja2 import FileSystemLoader, StrictUndefined, TemplateSyntaxError, nodes
    from jinja2.sandbox import ImmutableSandboxedEnvironment

    class Chapters(ImmutableSandboxedEnvironment):
        """Refuses, when a template is loaded, what would compute or join strings past the escaping."""

        def _parse(self, source: str, name: str | None, filename: str | None) -> nodes.Template:
            tree = super()._parse(source, name, filename)
            refused = (nodes.Add, nodes.Sub, nodes.Mul, nodes.Div, nodes.FloorDiv, nodes.Mod, nodes.Pow, nodes.Concat)
            for node in tree.find_all(refused):
                raise TemplateSyntaxError("a chapter prints and loops; it computes nothing and joins no strings", node.lineno, name, filename)
            return tree

    environment = Chapters(
        loader=FileSystemLoader(templates),
        undefined=StrictUndefined,
        autoescape=True,
        finalize=escaped,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters = {name: environment.filters[name] for name in _FILTERS} | {"join": _joined}
    environment.globals = {name: _tool(name) for name in _TOOLS}
    return environment


@cache
def _environment() -> Environment:
    return chapters_environment(folder("templates"))


def chapter(template: str, /, **values: Any) -> tuple[Block, ...]:
    """The blocks of the chapter written in `template`.

    Args:
        template: its file below `templates/`.
        values: what it prints; none may be named like a tool of the templates.

    Raises:
        BlockError: when the chapter leaves the closed set of blocks, or prints what has no printed form.
        jinja2.TemplateError: when the template is wrong, or names a value that it was not given.
    """
    return render(_environment(), template, values)


def render(environment: Environment, template: str, values: dict[str, Any]) -> tuple[Block, ...]:
    """The blocks of the chapter written in `template` of `environment`; raises as `chapter` does."""
    if taken := values.keys() & set(_TOOLS):
        raise BlockError(f"{template}: a value may not be named like a tool of the templates: {', '.join(sorted(taken))}")
    shelf = Shelf()
    token = _SHELF.set(shelf)
    try:
        markdown = environment.get_template(template).render(values)
        return read(markdown, shelf)
    except BlockError as error:
        raise BlockError(f"{template}: {error}") from None
    finally:
        _SHELF.reset(token)
