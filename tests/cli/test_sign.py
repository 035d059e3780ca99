"""`liftout sign`: what it asks for, what it refuses with which code, and that nothing is lost."""

from __future__ import annotations

import getpass
import io
import sys
from pathlib import Path

import pytest
from pypdf import PdfWriter

from tests.cli.test_check import run
from tests.records import papers, signers
from tests.records.test_signing import FITTED, INSPECTED, other_digit, value_of


@pytest.fixture(scope="module")
def paper_bytes(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    return papers.issued(tmp_path_factory.mktemp("issued"))


@pytest.fixture
def desk(tmp_path: Path, paper_bytes: bytes) -> Path:
    """A folder with a paper, two persons' certificates, and their passphrase in a file."""
    (tmp_path / "paper.pdf").write_bytes(paper_bytes)
    signers.file(tmp_path / "voe.p12", "R. Voe")
    signers.file(tmp_path / "quill.p12", "A. Quill", kind="rsa")
    (tmp_path / "word.txt").write_text(f"{signers.PASSPHRASE}\n", encoding="utf-8")
    return tmp_path


def asked(desk: Path, *more: object, paper: str = "paper.pdf", field: str = FITTED, person: str = "voe.p12") -> tuple[int, str, str]:
    return run("sign", desk / paper, "--field", field, "--certificate", desk / person, "--passphrase-file", desk / "word.txt", *more)


def files(desk: Path) -> set[str]:
    return {place.name for place in desk.iterdir()}


def test_two_persons_sign_one_paper_and_verify_tells_both(desk: Path, paper_bytes: bytes) -> None:
    code, out, err = asked(desk, "--incomplete")
    assert (code, err) == (0, "")
    assert 'Signed in the field "Fitted by" by R. Voe' in out
    assert "Still empty: Second person, flight controls; Inspected by." in out
    assert "INCOMPLETE" in out
    code, out, err = asked(desk, "--incomplete", paper="paper-signed.pdf", field=INSPECTED, person="quill.p12")
    assert (code, err) == (0, "")
    assert out.startswith(str(desk / "paper-signed-2.pdf"))
    assert (desk / "paper.pdf").read_bytes() == paper_bytes
    assert (desk / "paper-signed-2.pdf").read_bytes().startswith((desk / "paper-signed.pdf").read_bytes())
    code, out, err = run("verify", desk / "paper-signed-2.pdf")
    assert (code, err) == (0, "")
    assert "holds: the paper as it was issued, signed after that" in out
    assert out.count("fits its bytes") == 2
    assert "claims to be by A. Quill" in out
    assert "rests on its certificate" in out
    changed = bytearray((desk / "paper-signed-2.pdf").read_bytes())
    other_digit(changed, value_of(bytes(changed), changed.index(b"/Contents <", len(paper_bytes))))
    (desk / "changed.pdf").write_bytes(changed)
    code, out, _ = run("verify", desk / "changed.pdf")
    assert code == 1
    assert "BROKEN" in out


def test_without_a_field_the_fields_are_listed(desk: Path) -> None:
    code, out, err = run("sign", desk / "paper.pdf")
    assert (code, err) == (0, "")
    assert "  Fitted by: empty\n" in out
    assert "by hand" in out
    code, out, err = run("sign", desk / "paper.pdf", "--certificate", desk / "voe.p12")
    assert (code, out) == (2, "")
    assert "--field NAME" in err
    code, _, err = run("sign", desk / "paper.pdf", "--field", FITTED)
    assert code == 2
    assert "signs for nobody" in err


def test_an_open_paper_is_refused_with_the_code_of_what_is_open(desk: Path) -> None:
    before = files(desk)
    code, out, err = asked(desk)
    assert (code, out) == (3, "")
    assert "is INCOMPLETE, " in err
    assert "--incomplete" in err
    assert files(desk) == before


def test_what_is_refused_leaves_nothing_and_says_why(desk: Path, paper_bytes: bytes) -> None:
    foreign = PdfWriter()
    foreign.add_blank_page(200, 200)
    out = io.BytesIO()
    foreign.write(out)
    (desk / "foreign.pdf").write_bytes(out.getvalue())
    (desk / "cut.pdf").write_bytes(paper_bytes[:-3000])
    (desk / "locked.pdf").write_bytes(papers.rewritten(paper_bytes, lambda writer: writer.encrypt("", "owner")))
    (desk / "forged.pdf").write_bytes(papers.with_figure(paper_bytes, 3))
    (desk / "text.pdf").write_text("no paper", encoding="utf-8")
    (desk / "wrong.txt").write_text("wrong\n", encoding="utf-8")
    signers.file(desk / "old.p12", ends=signers.NOW - signers.DAY / 2)
    signers.file(desk / "early.p12", begins=signers.NOW + signers.DAY)
    before = {place.name: place.read_bytes() for place in desk.iterdir()}
    for paper, code, told in (
        ("foreign.pdf", 65, "no paper of a docket"),
        ("cut.pdf", 65, "its end is missing"),
        ("locked.pdf", 65, "is encrypted"),
        ("text.pdf", 65, "no PDF"),
        ("nowhere.pdf", 65, "no such file"),
        ("forged.pdf", 1, "does not follow from the job inside"),
    ):
        found, said, err = asked(desk, "--incomplete", "--unproved", paper=paper)
        assert (found, said) == (code, ""), err
        assert told in err
        assert "not signed" in err or "Nothing was signed" in err
    for more, told in (
        ({"field": "Approved by"}, "Fields that can be signed: Fitted by; Second person, flight controls; Inspected by."),
        ({"person": "old.p12"}, "has expired"),
        ({"person": "early.p12"}, "is not valid yet"),
        ({"person": "paper.pdf"}, "no PKCS#12 file"),
        ({"person": "nobody.p12"}, "cannot be read: No such file"),
    ):
        found, said, err = asked(desk, "--incomplete", **more)
        assert (found, said) == (2, ""), err
        assert told in err
    code, _, err = run(
        "sign", desk / "paper.pdf", "--field", FITTED, "--certificate", desk / "voe.p12", "--incomplete", "--passphrase-file", desk / "wrong.txt"
    )
    assert code == 2
    assert "the passphrase does not open it" in err
    assert signers.PASSPHRASE not in err
    assert {place.name: place.read_bytes() for place in desk.iterdir()} == before


def test_no_file_is_signed_over(desk: Path, paper_bytes: bytes) -> None:
    code, _, err = asked(desk, "--incomplete", "--out", desk / "paper.pdf")
    assert code == 2
    assert "is there already" in err
    assert (desk / "paper.pdf").read_bytes() == paper_bytes
    assert asked(desk, "--incomplete", "--out", desk / "named.pdf")[0] == 0
    assert asked(desk, "--incomplete", "--out", desk / "named.pdf")[0] == 2
    assert asked(desk, "--incomplete", "--out", desk / "no" / "folder.pdf")[0] == 2


@pytest.mark.long
def test_the_passphrase_comes_from_a_variable_or_is_asked_for_and_is_never_an_argument(desk: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    typed = ("sign", desk / "paper.pdf", "--field", FITTED, "--certificate", desk / "voe.p12", "--incomplete")
    assert run(*typed, "--passphrase-variable", "WORD", "--out", desk / "one.pdf", WORD=signers.PASSPHRASE)[0] == 0
    code, _, err = run(*typed, "--passphrase-variable", "NO_SUCH_WORD")
    assert code == 2
    assert "no environment variable NO_SUCH_WORD" in err
    monkeypatch.setattr(sys.stdin, "isatty", lambda: False, raising=False)
    code, _, err = run(*typed)
    assert code == 2
    assert "asked for on a terminal" in err
    monkeypatch.setattr(sys.stdin, "isatty", lambda: True, raising=False)
    monkeypatch.setattr(getpass, "getpass", lambda *_, **__: signers.PASSPHRASE)
    assert run(*typed, "--out", desk / "two.pdf")[0] == 0
    (desk / "word.txt").write_bytes(b"\xff\xfe\n")
    assert asked(desk, "--incomplete")[0] == 2
    (desk / "word.txt").write_bytes(b"")
    assert asked(desk, "--incomplete")[0] == 2
    code, _, err = run("sign", desk / "paper.pdf", "--passphrase", signers.PASSPHRASE)
    assert code == 2
    assert "unrecognized arguments" in err


def test_the_missing_library_is_named(desk: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "pyhanko", None)
    monkeypatch.setitem(sys.modules, "pyhanko.sign", None)
    code, out, err = asked(desk, "--incomplete")
    assert (code, out) == (2, "")
    assert 'pip install "liftout[sign]"' in err
