"""Text to a tree that knows its lines; bounded whatever the text is."""

from __future__ import annotations

import os
import socket
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml
from hypothesis import example, given
from hypothesis import strategies as st

from liftout.job import JobError, Said, reader
from liftout.job.reader import BYTES_MAX, DEPTH_MAX, NODES_MAX, compose, read_file


def refused(text: str) -> str:
    with pytest.raises(JobError) as caught:
        compose(text, "job.yaml")
    assert all(fault.file == "job.yaml" and fault.line >= 1 and fault.wrong and fault.right for fault in caught.value.faults)
    return str(caught.value)


# --- what was typed -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("loader", [yaml.SafeLoader, getattr(yaml, "CSafeLoader", yaml.SafeLoader)], ids=["pure", "libyaml"])
def test_every_scalar_stays_the_text_that_was_typed(loader: type, monkeypatch: pytest.MonkeyPatch) -> None:
    """Both parsers: a wheel of PyYAML may come without libyaml."""
    monkeypatch.setattr(reader, "_LOADER", loader)
    tree = compose(
        "a: 14\nb: 014\nc: no\nd: 1.50\ne: 2026-11-20\nf: 0x10\ng: 1_000\nh: ~\ni:\nj: null\nk: ''\nl: '~'\nm: \"null\"\nn: 12:30\no: .5\np: Null\nq: true\n",
        "x",
    )
    assert tree.plain() == {
        "a": "14", "b": "014", "c": "no", "d": "1.50", "e": "2026-11-20", "f": "0x10", "g": "1_000", "h": None, "i": None, "j": None, "k": "", "l": "~", "m": "null",
        "n": "12:30", "o": ".5", "p": "Null", "q": "true",
    }  # fmt: skip


def test_every_node_knows_its_line_and_column() -> None:
    tree = compose("liftout: 1\npapers:\n  number: A\n  list:\n  - one\n  - {two: 2}\n", "job.yaml")
    assert tree.at(("papers",)).place == "job.yaml:2"
    assert tree.at(("papers", "number")).place == "job.yaml:3"
    two = tree.at(("papers", "list", "2", "two"))
    assert (two.line, two.column, two.value) == (6, 6, "2")
    assert tree.at(("papers", "nothing", "there")).place == "job.yaml:2"  # the nearest on the way


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_may_end_as_on_any_machine(end: str) -> None:
    tree = compose(end.join(("liftout: 1", "papers:", "  number: A", "")), "job.yaml")
    assert tree.plain() == {"liftout": "1", "papers": {"number": "A"}}
    assert tree.at(("papers", "number")).line == 3


# --- what is not a job -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("text", ["", "\n\n", "# nothing\n", "{}", "[]", "- a\n", "text", "42", "---\n", "''", "~"])
def test_what_holds_no_keys(text: str) -> None:
    assert "holds no keys" in refused(text)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("a: [1\n", "not readable as YAML"),
        ("a: 'x\n", "not readable as YAML"),
        ("a: b: c\n", "not readable as YAML"),
        ("a: 1\n\tb: 2\n", "not readable as YAML"),
        ("a: @x\n", "not readable as YAML"),
        ("a: %x\n", "not readable as YAML"),
        ("a: !!python/object/apply:os.system [x]\n", "a YAML tag"),
        ("a: !!int 1\n", "a YAML tag"),
        ("a: !mine 1\n", "a YAML tag"),
        ("a: !!map {b: 1}\n", "a YAML tag"),
        ("a: !!seq [1]\n", "a YAML tag"),
        ("!!map {a: 1}\n", "a YAML tag"),
        ("a: 1\n---\nb: 2\n", "a second document"),
        ("a: 1\n...\n---\nb: 2\n", "a second document"),
        ("a: *b\n", "points to nothing"),
        ("a: &a [*a]\n", "points to nothing"),
        ("a: 1\nb: 2\na: 3\n", "stands twice here, first on line 1"),
        ("a: {b: 1, b: 2}\n", "stands twice here"),
        ("z: 1\n? {x: 1}\n: 2\n", "a key must be a word"),
        ("z: 1\n? [x]\n: 2\n", "a key must be a word"),
        ('z: 1\n"": 2\n', "a key must be a word"),
        ('z: 1\n" ": 2\n', "a key must be a word"),
        ('" a": 2\na: 3\n', "blanks"),
        ('"a ": 2\na: 3\n', "blanks"),
        ('z: 1\n"a  b": 2\n', "blanks"),
    ],
)
def test_what_is_refused_and_why(text: str, words: str) -> None:
    assert words in refused(text)


def test_all_double_keys_are_told_at_once_in_line_order() -> None:
    with pytest.raises(JobError) as caught:
        compose("a: 1\nb: 1\nb: 2\nc: {d: 1, d: 2}\na: 2\n", "job.yaml")
    assert [(fault.line, fault.path) for fault in caught.value.faults] == [(3, ("b",)), (4, ("d",)), (5, ("a",))]


HIDDEN = ["\u0000", "\u0001", "\u0007", "\u001b", "\u007f", "\u0085", "\u00ad", "\u200b", "\u200e", "\u200f", "\u202a", "\u202e", "\u2060", "\u2066", "\u2069", "\u2028", "\u2029", "\ue000", "\U000e0001", "\ufeff"]  # fmt: skip


@pytest.mark.parametrize("character", HIDDEN, ids=lambda character: f"U+{ord(character):04X}")
@pytest.mark.parametrize(
    "text", ["number: A{}B\n", "nu{}mber: A\n", 'number: "A{}B"\n', "# a note {}\nnumber: A\n"], ids=["value", "key", "quoted", "note"]
)
def test_what_cannot_be_seen_is_not_read(text: str, character: str, tmp_path: Path) -> None:
    """Of two keys that look alike one would win, and text that turns reads otherwise than it is."""
    path = tmp_path / "job.yaml"
    path.write_bytes(text.format(character).encode("utf-8", "surrogatepass"))
    with pytest.raises(JobError):
        compose(read_file(path, path.name), path.name)


@pytest.mark.parametrize(
    "escape", ["\\0", "\\e[31m", "\\a", "\\x07", "\\u202e", "\\u200b", "\\N", "\\_", "\\L", "\\P", "\\u2066", "\\x7f", "\\r", "\\ufeff"]
)
def test_what_cannot_be_seen_does_not_come_in_by_an_escape(escape: str) -> None:
    if escape == "\\_":  # a blank that does not break: it can be seen, as a blank
        assert compose(f'number: "A{escape}B"\n', "x").plain() == {"number": "A\u00a0B"}
        return
    assert "invisible" in refused(f'number: "A{escape}B"\n')


# --- bounds: what is counted, not what is timed ---------------------------------------------------------------------------------


class _Counting:
    """Counts the events that the parser hands over."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.events = 0
        real = yaml.parse

        def parse(text: str, Loader: type) -> object:
            for event in real(text, Loader=Loader):
                self.events += 1
                yield event

        monkeypatch.setattr(reader.yaml, "parse", parse)


def _bombs() -> dict[str, str]:
    doubling = "a0: &a0 [x, x]\n" + "".join(f"a{n}: &a{n} [*a{n - 1}, *a{n - 1}]\n" for n in range(1, 150))
    wide = "a0: &a0 [" + "x," * 2000 + "]\n" + "".join(f"b{n}: *a0\n" for n in range(190))
    deepening = "a0: &a0 " + "[" * 20 + "]" * 20 + "\n" + "".join(f"a{n}: &a{n} " + "[" * 20 + f"*a{n - 1}" + "]" * 20 + "\n" for n in range(1, 60))
    return {
        "flow nesting": "a: " + "[" * 200_000,
        "flow mappings": "a: " + "{a: " * 100_000,
        "block nesting": "\n".join(" " * n + "a:" for n in range(900)),
        "sequences of sequences": "a:\n" + "\n".join(" " * n + "-" for n in range(900)),
        "many keys": "".join(f"k{n}: 1\n" for n in range(60_000)),
        "long list": "a: [" + "1," * 90_000 + "1]",
        "aliases of aliases": doubling,
        "wide aliases": wide,
        "aliases deeper and deeper": deepening,
        "very many aliases": "a: &a x\n" + "".join(f"b{n}: *a\n" for n in range(5000)),
        "anchors": "".join(f"k{n}: &a{n} 1\n" for n in range(60_000)),
        "one long text": "a: '" + "x" * 900_000 + "'",
        "one long key": "x" * 900_000 + ": 1",
        "colons": ":" * 900_000,
        "question marks": "? " * 400_000,
        "dashes": "- " * 400_000,
        "quotes": "a: " + "'" * 900_001,
        "percent": "%" * 900_000,
        "comments": "#" * 900_000 + "\na: 1",
        "anchors without end": "a: " + "&a " * 300_000,
    }


BOMBS = _bombs()


@pytest.mark.parametrize("name", sorted(BOMBS))
def test_no_text_holds_the_reader_up(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The work is bounded by counts: events up to the bound, and nodes of the tree when it is walked."""
    counting = _Counting(monkeypatch)
    try:
        tree = compose(BOMBS[name], "job.yaml")
    except JobError as error:
        assert len(error.faults) <= NODES_MAX  # noqa: PT017 - either outcome is right, and each has its own test
        assert counting.events <= 3 * NODES_MAX
        return
    assert counting.events <= 3 * NODES_MAX
    nodes, deepest = 0, 0
    waiting: list[tuple[Said, int]] = [(tree, 0)]
    while waiting:
        node, depth = waiting.pop()
        nodes, deepest = nodes + 1, max(deepest, depth)
        assert nodes <= NODES_MAX
        waiting.extend((child, depth + 1) for _, child in node.children())
    assert deepest <= DEPTH_MAX
    assert tree.plain() is not None  # walks recursively


@given(st.text(st.sampled_from("ab: -[]{}&*!|>'\"%@`#?,\n\t\\0~") | st.characters(max_codepoint=0x2100), max_size=120))
@example("a: &a\n- *a")
@example("? a\n: b\n? a\n")
def test_any_text_is_a_tree_or_a_list_of_faults(text: str) -> None:
    try:
        tree = compose(text, "job.yaml")
    except JobError as error:
        assert error.faults  # noqa: PT017 - either outcome is right, and each has its own test
        assert all(fault.line >= 1 and fault.column >= 1 and fault.wrong and fault.right for fault in error.faults)  # noqa: PT017 - either outcome is right, and each has its own test
        return
    assert isinstance(tree.value, dict)
    assert tree.value


# --- files ---------------------------------------------------------------------------------------------------------------------


def _link(folder: Path) -> Path:
    (folder / "real.yaml").write_text("liftout: 1\n")
    (folder / "link.yaml").symlink_to(folder / "real.yaml")
    return folder / "link.yaml"


def _pipe(folder: Path) -> Path:
    os.mkfifo(folder / "pipe.yaml")
    return folder / "pipe.yaml"


def _socket(folder: Path) -> Path:
    path = folder / "s"
    listener = socket.socket(socket.AF_UNIX)
    listener.bind(str(path))
    listener.close()
    return path


def _large(folder: Path) -> Path:
    with (folder / "large.yaml").open("wb") as stream:
        stream.truncate(BYTES_MAX * 3000)  # sparse: three gigabytes that must not be read
    return folder / "large.yaml"


def _folder(folder: Path) -> Path:
    return folder


def _wide(folder: Path) -> Path:
    (folder / "wide.yaml").write_bytes("liftout: 1\n".encode("utf-16"))
    return folder / "wide.yaml"


def _latin(folder: Path) -> Path:
    (folder / "latin.yaml").write_bytes("liftout: 1\nshop: Ström\n".encode("latin-1"))
    return folder / "latin.yaml"


@pytest.mark.skipif(os.name != "posix", reason="links, pipes and devices as Unix has them")
@pytest.mark.parametrize(
    ("make", "words"),
    [
        (_link, "this is a link"),
        (_pipe, "not an ordinary file"),
        (_socket, "cannot be opened"),
        (_folder, "not an ordinary file"),
        (_large, f"longer than {BYTES_MAX} bytes"),
        (_wide, "not UTF-8"),
        (_latin, "not UTF-8"),
        (lambda folder: Path("/dev/zero"), "not an ordinary file"),
        (lambda folder: Path("/dev/null"), "not an ordinary file"),
        (lambda folder: folder / "nothing.yaml", "no such file"),
        (lambda folder: folder / "nothing" / "at" / "all.yaml", "no such file"),
        (lambda folder: folder / ("x" * 5000), ""),
        (lambda folder: folder / "a\0b", ""),
    ],
    ids=["link", "pipe", "socket", "folder", "large", "utf-16", "latin-1", "zero", "null", "missing", "missing folder", "long name", "NUL name"],
)
def test_only_an_ordinary_file_of_bounded_size_is_read(make: Callable[[Path], Path], words: str, tmp_path: Path) -> None:
    with pytest.raises(JobError) as caught:
        read_file(make(tmp_path), "job.yaml")
    assert words in str(caught.value)
    assert caught.value.faults[0].right


def test_the_line_of_a_wrong_byte_is_told(tmp_path: Path) -> None:
    with pytest.raises(JobError) as caught:
        read_file(_latin(tmp_path), "latin.yaml")
    assert caught.value.faults[0].line == 2


def test_a_byte_order_mark_is_read_over(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_bytes(b"\xef\xbb\xbfliftout: 1\n")
    assert compose(read_file(tmp_path / "job.yaml", "job.yaml"), "job.yaml").plain() == {"liftout": "1"}


@pytest.mark.skipif(os.name != "posix" or os.getuid() == 0, reason="needs a file that this user may not read")
def test_a_file_that_may_not_be_read(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text("liftout: 1\n")
    (tmp_path / "job.yaml").chmod(0)
    with pytest.raises(JobError, match="cannot be opened"):
        read_file(tmp_path / "job.yaml", "job.yaml")


def _grows(path: Path) -> None:
    with path.open("ab") as stream:
        stream.truncate(BYTES_MAX * 3000)


def _is_cut(path: Path) -> None:
    os.truncate(path, len("liftout: 1\npapers: {num"))


def _is_written_over(path: Path) -> None:
    path.write_text("liftout: 1\npapers: {number: B}\n")


def _becomes_a_link(path: Path) -> None:
    path.unlink()
    path.symlink_to("/etc/passwd")


def _becomes_a_device(path: Path) -> None:
    path.unlink()
    os.mkfifo(path)


def _goes(path: Path) -> None:
    path.unlink()


@pytest.mark.skipif(os.name != "posix", reason="links and pipes as Unix has them")
@pytest.mark.parametrize(
    ("change", "outcome"),
    [
        (_grows, "longer than"),
        (_is_cut, "not readable as YAML"),
        (_is_written_over, "B"),
        (_becomes_a_link, "A"),
        (_becomes_a_device, "A"),
        (_goes, "A"),
    ],
    ids=lambda value: getattr(value, "__name__", value),
)
def test_a_file_that_changes_while_it_is_read(change: Callable[[Path], None], outcome: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What was opened is what is read, within its bounds; a torn text is refused, and nothing waits or follows a link."""
    path = tmp_path / "job.yaml"
    path.write_text("liftout: 1\npapers: {number: A}\n")
    real = os.fstat

    def looked_at(handle: int) -> os.stat_result:
        found = real(handle)
        monkeypatch.setattr(reader.os, "fstat", real)  # opening a stream looks again
        change(path)
        return found

    monkeypatch.setattr(reader.os, "fstat", looked_at)
    try:
        tree = compose(read_file(path, path.name), path.name)
    except JobError as error:
        assert outcome in str(error)  # noqa: PT017 - either outcome is right, and each is named
        return
    assert tree.at(("papers", "number")).value == outcome


# --- changes ----------------------------------------------------------------------------------------------------------------------


def test_a_change_touches_one_place() -> None:
    tree = compose("a: {b: {value: 1 lb, measured: {by: X}}, c: [1, 2]}\n", "x")
    assert tree.changed(("a", "b"), "2 lb").plain() == {"a": {"b": "2 lb", "c": ["1", "2"]}}
    assert tree.changed(("a", "c", "2"), "5").plain() == {"a": {"b": {"value": "1 lb", "measured": {"by": "X"}}, "c": ["1", "5"]}}
    assert tree.changed(("a", "d"), "new").plain()["a"]["d"] == "new"  # type: ignore[index]
    for nowhere in (("a", "d", "e"), ("a", "c", "3"), ("z", "y")):
        with pytest.raises(KeyError):
            tree.changed(nowhere, "x")
    assert tree.plain() == {"a": {"b": {"value": "1 lb", "measured": {"by": "X"}}, "c": ["1", "2"]}}
