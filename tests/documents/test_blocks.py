"""Chapters: the closed set of blocks, and nothing that a job holds becomes structure."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jinja2 import DictLoader, Environment, TemplateError, UndefinedError
from jinja2.sandbox import SecurityError

from liftout.documents import templating
from liftout.documents.blocks import (
    Alert,
    Block,
    BlockError,
    Bullets,
    Checklist,
    ChecklistRow,
    Code,
    Emphasis,
    Fields,
    Figure,
    Heading,
    LineBreak,
    Paragraph,
    Shelf,
    Signature,
    Steps,
    Strong,
    Table,
    Text,
    Working,
    plain,
    read,
)
from liftout.findings import Verdict
from liftout.quantities import of
from liftout.resources import folder
from tests.documents import sample


def blocks(markdown: str) -> tuple[Block, ...]:
    return read(markdown, Shelf())


def rendered(source: str, **values: Any) -> tuple[Block, ...]:
    environment: Environment = templating.chapters_environment(folder("templates"))
    shared = environment.loader
    assert shared is not None
    environment.loader = DictLoader(
        {"chapter.md.j2": source, "shared/alerts.md.j2": (folder("templates") / "shared" / "alerts.md.j2").read_text(encoding="utf-8")}
    )
    return templating.render(environment, "chapter.md.j2", values)


# --- what is in the set -------------------------------------------------------------------------------------


def test_words() -> None:
    assert blocks("One *two* **three `four`**  \nfive\nsix") == (
        Paragraph((Text("One "), Emphasis((Text("two"),)), Text(" "), Strong((Text("three "), Code("four"))), LineBreak(), Text("five six"))),
    )


def test_headings_have_anchors_of_their_own() -> None:
    assert blocks("## Run W1\n\n### Run W1\n\n## Run: W1!") == (
        Heading(2, "Run W1", "run-w1"),
        Heading(3, "Run W1", "run-w1-2"),
        Heading(2, "Run: W1!", "run-w1-3"),
    )


def test_lists() -> None:
    assert blocks("- a\n  - b\n- c") == (Bullets(((Paragraph((Text("a"),)), Bullets(((Paragraph((Text("b"),)),),))), (Paragraph((Text("c"),)),))),)


def test_steps_go_on_after_a_warning() -> None:
    found = blocks("1. a\n2. b\n\n```warning\nHot.\n```\n\n3. c")
    assert [type(block) for block in found] == [Steps, Alert, Steps]
    assert [block.first for block in found if isinstance(block, Steps)] == [1, 3]
    assert found[1] == Alert("WARNING", (Paragraph((Text("Hot."),)),))


@pytest.mark.parametrize(("word", "said"), [("warning", "WARNING"), ("caution", "CAUTION"), ("note", "NOTE")])
def test_signal_words(word: str, said: str) -> None:
    (alert,) = blocks(f"```{word}\nFirst **one**.\n\n- b\n```")
    assert isinstance(alert, Alert)
    assert alert.word == said
    assert [type(block) for block in alert.of] == [Paragraph, Bullets]


def test_tables() -> None:
    (table,) = blocks("| a | b | c |\n|:--|--:|:-:|\n| 1 | **2** | |")
    assert table == Table(((Text("a"),), (Text("b"),), (Text("c"),)), (((Text("1"),), (Strong((Text("2"),)),), ()),), ("left", "right", "center"))


def test_the_sample_holds_every_kind_of_block() -> None:
    found = {type(block) for block in (*sample.blocks(), *sample.blocks("short.md.j2"))}
    assert found == {Heading, Paragraph, Bullets, Steps, Alert, Table, Working, Figure, Checklist, Signature, Fields}


# --- what is not --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "markdown",
    [
        "<b>bold</b>",
        "text with <br> in it",
        "<script>alert(1)</script>",
        "<!-- hidden -->",
        "![alt](picture.png)",
        "[link](http://example.org)",
        "<http://example.org>",
        "[link]\n\n[link]: http://example.org",
        "[hidden]: http://example.org",
        "> quoted",
        "---",
        "    indented code",
        "```\nplain fence\n```",
        "```python\nx\n```",
        "```warning extra\nx\n```",
        "Title\n=====",
        "Title\n-----",
        "# Chapter title",
        "##### too deep",
        "##",
        "## With *emphasis*",
        "- ",
        "1. a\n\n```\nx\n```",
        "2. begins at two",
        "1. a\n2. b\n\ntext\n\n4. d",
        "1. a\n\n   ```warning\n   hot\n   ```",
        "- a\n\n  > quoted",
        "```warning\n```",
        "```warning\n## heading\n```",
        "```warning\n```note\nx\n```\n```",
        "```working\n1\n```",
        "| a | b |\n|---|---|\n| 1 |",
        "| a | b |\n|---|---|\n| 1 | 2 | 3 |",
        "nul \x00",
        "bell \x07",
    ],
)
def test_what_is_not_in_the_set_is_an_error(markdown: str) -> None:
    with pytest.raises(BlockError):
        blocks(markdown)


def test_the_error_names_the_line() -> None:
    with pytest.raises(BlockError, match=r"line 3 of the chapter, '> quoted': a block quote"):
        blocks("text\n\n> quoted")
    with pytest.raises(BlockError, match=r"line 4 .*a link"):
        blocks("text\n\n```warning\n[a](b)\n```")


def test_a_shelf_gives_each_thing_once() -> None:
    shelf = Shelf()
    fence = shelf.fields([("a", "b")])
    assert read(fence, shelf) == (Fields((("a", "b"),)),)
    with pytest.raises(BlockError, match="nothing of kind fields"):
        read(fence, shelf)


def test_what_is_put_on_the_shelf_and_not_placed_is_an_error() -> None:
    shelf = Shelf()
    shelf.working(sample.not_assessed())
    with pytest.raises(BlockError, match="not placed in the chapter: Working"):
        read("Text.", shelf)


def test_one_kind_cannot_be_taken_for_another() -> None:
    shelf = Shelf()
    fence = shelf.fields([("a", "b")])
    with pytest.raises(BlockError, match="nothing of kind working"):
        read(fence.replace("fields", "working"), shelf)


@pytest.mark.parametrize(
    "put",
    [
        lambda shelf: shelf.table(["a", "b"], [["1"]]),
        lambda shelf: shelf.table([], []),
        lambda shelf: shelf.signature([]),
        lambda shelf: shelf.checklist([ChecklistRow("item", "", "look", "tight")]),
        lambda shelf: shelf.figure(Figure("name", "<svg/>", "caption", "")),
    ],
)
def test_what_lacks_something_is_refused_when_it_is_put_there(put: Any) -> None:
    with pytest.raises(BlockError):
        put(Shelf())


# --- templates ----------------------------------------------------------------------------------------------

PLACES = {
    "a paragraph": "{{ x }}",
    "bold": "A **b{{ x }}b** c",
    "code": "A `{{ x }}` b",
    "a heading": "## a {{ x }}",
    "a bullet": "- {{ x }}",
    "a step": "1. {{ x }}",
    "a cell": "| a | b |\n|---|---|\n| {{ x }} | c |",
    "an alert": "```warning\n{{ x }}\n```",
    "a macro": '{% from "shared/alerts.md.j2" import note %}\n{{ note(x) }}',
    "a call": '{% from "shared/alerts.md.j2" import note %}\n{% call note() %}\n{{ x }}\n{% endcall %}',
    "a table": "{{ table(['a'], [[x]]) }}",
}


def texts(value: Any) -> list[str]:
    """Every text in a tree of blocks."""
    if isinstance(value, Text | Code):
        return [value.text]
    if isinstance(value, Heading):
        return [value.text]
    if isinstance(value, tuple):
        return [text for item in value for text in texts(item)]
    return [text for name in getattr(value, "__slots__", ()) for text in texts(getattr(value, name))]


def shape(value: Any) -> Any:
    """A tree of blocks without its texts."""
    if isinstance(value, tuple):
        return tuple(shape(item) for item in value)
    if hasattr(value, "__slots__"):
        return (type(value).__name__, *(shape(getattr(value, name)) for name in value.__slots__ if name not in ("anchor", "text")))
    return value if not isinstance(value, str) else ""


@pytest.mark.parametrize("place", PLACES)
@settings(max_examples=60)
@given(
    st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "S", "Zs")), min_size=1).filter(
        lambda text: text.strip() == text and "  " not in text
    )
)
def test_a_text_from_the_job_prints_as_typed_and_is_never_structure(place: str, text: str) -> None:
    found = rendered(PLACES[place], x=text)
    assert shape(found) == shape(rendered(PLACES[place], x="harmless"))
    assert any(text in held for held in texts(found))


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize(
    "text",
    [
        sample.HOSTILE,
        "```\n```working\n1\n```",
        "\n\n# heading\n\n- x",
        "1. x",
        "| a |\n|---|",
        "> q",
        "---",
        "[x]: http://y",
        "&lt;b&gt;",
        "a  \nb",
        "\\",
        "`",
        "a\\|b",
    ],
)
def test_hostile_texts(place: str, text: str) -> None:
    found = rendered(PLACES[place], x=text)
    assert shape(found) == shape(rendered(PLACES[place], x="harmless"))
    wanted = " ".join(text.split())
    assert any(wanted in " ".join(held.split()) for held in texts(found))


@pytest.mark.parametrize(
    "source",
    [
        "{{ 1 + 2 }}",
        "{{ x * 2 }}",
        "{{ x ~ x }}",
        '{{ "%s" % x }}',
        "{% set y = x - 1 %}",
        "{{ x | safe }}",
        "{{ x | replace('a', 'b') }}",
        "{{ x // 2 }}",
        "{{ x ** 2 }}",
    ],
)
def test_a_template_computes_nothing_and_joins_no_strings(source: str) -> None:
    with pytest.raises(TemplateError):
        rendered(source, x="a")


@pytest.mark.parametrize("value", [None, 1.5, True, object(), ["a"]])
def test_a_value_without_a_printed_form_is_an_error(value: object) -> None:
    with pytest.raises(BlockError, match="no printed form"):
        rendered("{{ x }}", x=value)


def test_values_with_a_printed_form() -> None:
    (found,) = rendered("{{ a }}, {{ b }}, {{ c }}, {{ d }}", a=3, b=Decimal("0.50"), c=of("3.2", "m"), d=Verdict.NOT_ASSESSED)
    assert isinstance(found, Paragraph)
    assert plain(found.of) == "3, 0.50, 3.2 m, not assessed"


def test_a_name_that_was_not_given_is_an_error() -> None:
    with pytest.raises(UndefinedError):
        rendered("{{ nobody }}")


def test_the_inside_of_python_is_out_of_reach() -> None:
    with pytest.raises(SecurityError):
        rendered("{{ x.__class__.__mro__ }}", x="a")


def test_a_value_may_not_hide_a_tool() -> None:
    with pytest.raises(BlockError, match="named like a tool"):
        rendered("x", working=1)


def test_joined_values_are_escaped_each() -> None:
    (found,) = rendered("{{ x | join(', ') }}", x=["*a*", "b_c_"])
    assert found == Paragraph((Text("*a*, b_c_"),))


def test_chapters_come_from_the_templates_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "chapter.md.j2").write_text("{{ x }}", encoding="utf-8")
    monkeypatch.setattr(templating, "_environment", lambda: templating.chapters_environment(tmp_path))
    assert templating.chapter("chapter.md.j2", x="*") == (Paragraph((Text("*"),)),)
    with pytest.raises(BlockError, match=r"^chapter\.md\.j2: "):
        templating.chapter("chapter.md.j2", x=None)
