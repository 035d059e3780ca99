"""Signatures: the paper stays whole before them, both persons' signatures validate, and whatever else was done is found."""

from __future__ import annotations

import builtins
import io
import re
import socket
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pypdf
import pytest
from pypdf import PdfWriter
from pypdf.generic import ArrayObject, DecodedStreamObject, DictionaryObject, FloatObject, NameObject, NumberObject, TextStringObject

from liftout.documents import signature_appearance
from liftout.records import signing
from liftout.records.carried import NotRead, read
from liftout.records.signed import behind, fields
from liftout.records.signing import Allowed, NotAsIssued, NotSigned, StillOpen
from liftout.records.verified import Outcome, Verified, verify
from tests.every_nth import every_nth
from tests.records import papers, signers

FITTED, INSPECTED = "Fitted by", "Inspected by"


@pytest.fixture(scope="module")
def paper_bytes(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    return papers.issued(tmp_path_factory.mktemp("issued"))


@pytest.fixture(scope="module")
def once(paper_bytes: bytes, tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """Signed by the technician."""
    return signed(tmp_path_factory.mktemp("once"), paper_bytes, FITTED, "R. Voe")


@pytest.fixture(scope="module")
def twice(once: bytes, tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """Signed by the inspector after that."""
    return signed(tmp_path_factory.mktemp("twice"), once, INSPECTED, "A. Quill", kind="rsa")


def signed(folder: Path, content: bytes, field: str, name: str, open_count: int = 0, **said: Any) -> bytes:
    place = folder / "given.pdf"
    place.write_bytes(content)
    carried = read(place)
    mine = signing.credential(signers.file(folder / "person.p12", name, **said), signers.PASSPHRASE, signers.NOW)
    return signing.signed(carried, signing.field_named(carried, field), mine, signers.NOW, open_count)


def verdict(folder: Path, content: bytes) -> Verified:
    place = folder / "paper.pdf"
    place.write_bytes(content)
    return verify(read(place))


def found_behind(content: bytes) -> Any:
    return behind(content, pypdf.PdfReader(io.BytesIO(content), strict=True))


def field_of(content: bytes, name: str) -> Any:
    form: Any = pypdf.PdfReader(io.BytesIO(content)).root_object["/AcroForm"]
    return next(one.get_object() for one in form["/Fields"] if one.get_object()["/T"] == name)


# --- what is made ------------------------------------------------------------------------------------------------------


def test_a_signature_is_written_behind_the_paper_and_is_told_by_verify(tmp_path: Path, paper_bytes: bytes, once: bytes) -> None:
    assert once.startswith(paper_bytes)
    found = verdict(tmp_path, once)
    assert found.outcome is Outcome.SIGNED
    assert found.appended == len(once) - len(paper_bytes)
    (one,) = found.signatures
    assert (one.field, one.by, one.issuer, one.intact) == (FITTED, "R. Voe, Invented Registry", "Root of a test, Invented Registry", True)
    assert one.when.startswith(f"{signers.NOW:%Y-%m-%d}")


def test_it_is_a_plain_signature_of_the_baseline_with_its_purpose_in_the_words_of_the_paper(once: bytes) -> None:
    said = field_of(once, FITTED)["/V"].get_object()
    assert said["/SubFilter"] == "/ETSI.CAdES.detached"
    assert said["/Name"] == "R. Voe"
    assert said["/Reason"] == "Fitted by. The work described was done by me, or under my supervision."
    assert "/Reference" not in said  # it locks nothing and certifies nothing for the author of the file
    root = pypdf.PdfReader(io.BytesIO(once)).root_object
    assert not {"/Perms", "/DSS", "/OpenAction"} & {*root}
    assert field_of(once, INSPECTED).get("/V") is None


def test_the_signatures_of_two_persons_validate_against_their_issuer(tmp_path: Path, twice: bytes, once: bytes) -> None:
    """By the library's own validator, which trusts the root of this test and asks no network."""
    from asn1crypto.x509 import Certificate
    from pyhanko.pdf_utils.reader import PdfFileReader
    from pyhanko.sign.validation import validate_pdf_signature
    from pyhanko_certvalidator import ValidationContext

    trusting = ValidationContext(trust_roots=[Certificate.load(signers.root_der())], allow_fetching=False)
    embedded = PdfFileReader(io.BytesIO(twice)).embedded_signatures
    assert [one.field_name for one in embedded] == [FITTED, INSPECTED]
    for one in embedded:
        status = validate_pdf_signature(one, trusting)
        assert (status.intact, status.valid, status.trusted, status.bottom_line) == (True, True, True, True), status.pretty_print_details()
        assert status.docmdp_ok
    assert twice.startswith(once)
    found = verdict(tmp_path, twice)
    assert found.outcome is Outcome.SIGNED
    assert [(one.field, one.by.partition(",")[0], one.intact) for one in found.signatures] == [
        (FITTED, "R. Voe", True),
        (INSPECTED, "A. Quill", True),
    ]


def test_a_root_that_nobody_trusts_is_not_trusted(once: bytes) -> None:
    from pyhanko.pdf_utils.reader import PdfFileReader
    from pyhanko.sign.validation import validate_pdf_signature
    from pyhanko_certvalidator import ValidationContext

    (one,) = PdfFileReader(io.BytesIO(once)).embedded_signatures
    status = validate_pdf_signature(one, ValidationContext(trust_roots=[], allow_fetching=False))
    assert (status.intact, status.trusted) == (True, False)


def test_neither_signing_nor_verifying_asks_the_network(tmp_path: Path, paper_bytes: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
    def asked(*_: object, **__: object) -> None:
        pytest.fail("the network was asked")

    monkeypatch.setattr(socket.socket, "connect", asked)
    monkeypatch.setattr(socket, "getaddrinfo", asked)
    assert found_behind(signed(tmp_path, paper_bytes, FITTED, "R. Voe")).signatures[0].intact


@pytest.mark.long
def test_the_title_the_dates_and_the_carried_files_stay_as_they_were_issued(paper_bytes: bytes, twice: bytes) -> None:
    before, after = (pypdf.PdfReader(io.BytesIO(content)) for content in (paper_bytes, twice))
    assert before.metadata == after.metadata
    assert before.root_object["/Metadata"].get_data() == after.root_object["/Metadata"].get_data()  # type: ignore[attr-defined]
    assert before.attachments == after.attachments
    assert [page.extract_text() for page in before.pages] == [page.extract_text() for page in after.pages]


def test_a_signed_paper_breaks_no_rule_that_the_checker_covers(tmp_path: Path, twice: bytes) -> None:
    import pdfua

    place = tmp_path / "signed.pdf"
    place.write_bytes(twice)
    assert pdfua.validate(str(place)).exit_code == 0


# --- how it looks ------------------------------------------------------------------------------------------------------


def test_what_is_drawn_says_who_and_when_and_claims_nothing() -> None:
    words = [" ".join(signing._lines(signers.NOW, count)) for count in (0, 1, 12)]
    assert all(f"Signed on {signers.NOW:%Y-%m-%d at %H:%M} UTC" in said for said in words)
    assert "INCOMPLETE: 1 open item." in words[1]
    assert "INCOMPLETE: 12 open items." in words[2]
    assert "INCOMPLETE" not in words[0]
    assert not re.search(r"approv|airworth|accept|certif(y|ied)|release|valid|conform", " ".join(words), re.IGNORECASE)


@pytest.mark.parametrize("name", ["R. Voe", "Žofie Ångström-Łukasz", "署名者", "x" * 400, '#panic() $x$ *b* \\ "q"', "a\u202eb\x07"])
def test_any_name_can_be_drawn_in_the_field(name: str) -> None:
    page = pypdf.PdfReader(io.BytesIO(signature_appearance.drawn(name, ["first", "second"], 230, 22.4))).pages[0]
    assert [round(float(side), 1) for side in page.mediabox] == [0, 0, 230, 22.4]
    text = page.extract_text()
    assert "first" in text
    assert "second" in text
    if name.isascii() and len(name) < 80 and name.isprintable():
        assert re.sub(r"\s", "", name) in re.sub(r"\s", "", text)


def test_the_letters_of_a_signature_are_inside_the_file(once: bytes) -> None:
    def fonts(node: Any) -> list[Any]:
        inside = node["/Resources"]
        below = [font for form in inside.get("/XObject", {}).values() for font in fonts(form.get_object())]
        return [*(font.get_object() for font in inside.get("/Font", {}).values()), *below]

    used = fonts(field_of(once, FITTED)["/AP"]["/N"].get_object())
    assert used
    for font in used:
        about = font["/DescendantFonts"][0].get_object()["/FontDescriptor"]
        assert {"/FontFile2", "/FontFile3"} & {*about}


# --- what was done to it afterwards ------------------------------------------------------------------------------------


@pytest.mark.parametrize("part", every_nth(["issued", "field", "picture", "first signature", "second signature", "end"], 2))
def test_a_changed_byte_is_found_wherever_it_stands(tmp_path: Path, paper_bytes: bytes, once: bytes, twice: bytes, part: str) -> None:
    at = {
        "issued": len(paper_bytes) // 2,
        "field": twice.index(b"/TU (", len(paper_bytes)) + 8,
        "picture": twice.index(b"stream", len(paper_bytes)) + 30,
        "first signature": value_of(twice, twice.index(b"/Contents <", len(paper_bytes))),
        "second signature": value_of(twice, twice.index(b"/Contents <", len(once))),
        "end": len(twice) - 40,
    }[part]
    changed = bytearray(twice)
    changed[at] = changed[at] ^ 1
    try:
        found = verdict(tmp_path, bytes(changed))
    except NotRead:
        return  # the byte was one that the file cannot be read without
    assert found.outcome in (Outcome.BROKEN_SIGNATURE, Outcome.DIFFERS)
    assert any(not one.intact and one.trouble for one in found.signatures)


def value_of(content: bytes, at: int) -> int:
    """A digit of the signature's own value, the last thing in it before the room that was left."""
    return at + len(content[at : content.index(b">", at)].rstrip(b"0")) - 20


def other_digit(content: bytearray, at: int) -> None:
    """Put another hexadecimal digit there; one bit of a letter would make something that is none."""
    content[at] = ord("1") if content[at] == ord("0") else ord("0")


def test_a_paper_that_was_changed_and_then_signed_does_not_hold(tmp_path: Path, paper_bytes: bytes) -> None:
    """The signature fits; what it fits is not what was issued."""
    forged = signed(tmp_path, papers.with_figure(paper_bytes, 3), FITTED, "R. Voe")
    found = verdict(tmp_path, forged)
    assert found.outcome is Outcome.DIFFERS
    assert found.signatures[0].intact
    assert found.held is not None
    assert [one.number for one in found.held.differing if "content" in one.parts] == [3]


@pytest.mark.long
def test_what_was_laid_over_a_paper_before_it_was_signed_is_told(tmp_path: Path, paper_bytes: bytes) -> None:
    found = verdict(tmp_path, signed(tmp_path, papers.with_note(paper_bytes, 2), FITTED, "R. Voe"))
    assert found.outcome is Outcome.APPENDED
    assert found.held is not None
    assert 2 in [one.number for one in found.held.differing]


@pytest.mark.long
def test_what_was_laid_over_a_signed_paper_is_told(tmp_path: Path, once: bytes) -> None:
    found = verdict(tmp_path, papers.with_note(once, 2))
    assert found.outcome is Outcome.APPENDED
    assert "behind the last signature, which it does not cover" in " ".join(found.why)


@pytest.mark.long
def test_a_page_drawn_anew_behind_a_signature_does_not_hold(tmp_path: Path, once: bytes) -> None:
    def draw(writer: PdfWriter) -> None:
        stream = DecodedStreamObject()
        stream.set_data(b"0 0 100 100 re f")
        writer.pages[2][NameObject("/Contents")] = writer._add_object(stream)

    found = verdict(tmp_path, papers.appended(once, draw))
    assert found.outcome is Outcome.DIFFERS
    assert found.signatures[0].intact  # it covers what was there before, and says nothing of what came after


def replaced_look(writer: PdfWriter) -> None:
    """The picture of the first signature shows another name."""
    form: Any = writer.root_object["/AcroForm"]
    for one in form["/Fields"]:
        if one.get_object()["/T"] == FITTED:
            drawn = DecodedStreamObject()
            drawn.set_data(b"0 0 10 10 re f")
            sides = ArrayObject([FloatObject(side) for side in (0, 0, 10, 10)])
            drawn.update({NameObject("/Type"): NameObject("/XObject"), NameObject("/Subtype"): NameObject("/Form"), NameObject("/BBox"): sides})
            one.get_object()[NameObject("/AP")] = DictionaryObject({NameObject("/N"): writer._add_object(drawn)})


def moved_field(writer: PdfWriter) -> None:
    """The next field lies elsewhere on the page, where it could hide what is printed."""
    form: Any = writer.root_object["/AcroForm"]
    for one in form["/Fields"]:
        if one.get_object()["/T"] == INSPECTED:
            one.get_object()[NameObject("/Rect")] = ArrayObject([NumberObject(side) for side in (50, 50, 500, 700)])


def acts(writer: PdfWriter) -> None:
    script = DictionaryObject({NameObject("/S"): NameObject("/JavaScript"), NameObject("/JS"): TextStringObject("app.alert('x')")})
    writer.root_object[NameObject("/OpenAction")] = writer._add_object(script)


@pytest.mark.parametrize(
    ("change", "told"), every_nth([(replaced_look, "object"), (moved_field, "Rect of a signature field"), (acts, "the entry OpenAction")], 3)
)
def test_what_comes_between_two_signatures_is_told(tmp_path: Path, once: bytes, change: Callable[[PdfWriter], None], told: str) -> None:
    """The second signature covers it, and so says nothing against it: it is found by what it changes."""
    content = signed(tmp_path, papers.appended(once, change), INSPECTED, "A. Quill")
    assert told in " ".join(found_behind(content).besides)
    found = verdict(tmp_path, content)
    assert found.outcome in (Outcome.APPENDED, Outcome.DIFFERS)
    assert "besides the signatures" in " ".join(found.why)


def again(content: bytes) -> bytes:
    """An end that says what the end before it said."""
    return b"startxref\n%d\n%%%%EOF\n" % int(content.rsplit(b"startxref", 1)[1].split()[0])


def test_bytes_behind_the_last_signature_are_told(tmp_path: Path, once: bytes) -> None:
    found = verdict(tmp_path, once + again(once))
    assert found.outcome is Outcome.APPENDED
    assert "behind the last signature" in " ".join(found.why)


def ranged(content: bytes, *numbers: int) -> bytes:
    """A signed paper whose signature says that it covers other bytes."""
    said = re.search(rb"/ByteRange \[[^\]]*\]", content)
    assert said is not None
    other = b"/ByteRange [" + b" ".join(b"%d" % number for number in numbers)
    return content[: said.start()] + other.ljust(len(said[0]) - 1) + b"]" + content[said.end() :]


def test_a_signature_that_leaves_bytes_out_is_refused(tmp_path: Path, once: bytes) -> None:
    _, until, again, length = (int(one) for one in field_of(once, FITTED)["/V"].get_object()["/ByteRange"])
    for numbers in (
        (0, until - 50, again, length),
        (0, until, again + 50, length - 50),
        (7, until, again, length),
        (0, until, again, length + 9),
        (0, 0, 0, 0),
    ):
        with pytest.raises(NotRead, match="a signature"):
            verdict(tmp_path, ranged(once, *numbers))


def test_a_signature_is_told_where_the_library_that_checks_it_is_missing(tmp_path: Path, once: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
    real = builtins.__import__

    def without(name: str, *rest: Any, **named: Any) -> Any:
        if name.partition(".")[0] == "pyhanko":
            raise ModuleNotFoundError(name)
        return real(name, *rest, **named)

    monkeypatch.setattr(builtins, "__import__", without)
    found = verdict(tmp_path, once)
    assert found.outcome is Outcome.APPENDED
    assert [(one.field, one.by, one.intact) for one in found.signatures] == [(FITTED, "R. Voe", None)]
    assert 'Install "liftout[sign]"' in " ".join(found.why)
    with pytest.raises(NotSigned, match=r"liftout\[sign\].*sign it by hand"):
        signing.needs_library()


# --- what is refused ---------------------------------------------------------------------------------------------------


def test_fields_are_listed_with_who_signed_them(tmp_path: Path, once: bytes) -> None:
    place = tmp_path / "once.pdf"
    place.write_bytes(once)
    carried = read(place)
    told = [(field.name, one.by if one else None) for field, one in signing.listed(carried)]
    assert told == [(FITTED, "R. Voe, Invented Registry"), ("Second person, flight controls", None), (INSPECTED, None)]
    with pytest.raises(NotSigned, match=r'has no field "Approved by"\. Fields that can be signed: Second person, flight controls; Inspected by\.'):
        signing.field_named(carried, "Approved by")
    with pytest.raises(NotSigned, match=r"signed already by R\. Voe.*never replaced"):
        signing.field_named(carried, "FITTED  by")
    assert signing.field_named(carried, "inspected by").name == INSPECTED


def test_a_paper_without_fields_says_what_to_do(tmp_path: Path, paper_bytes: bytes) -> None:
    place = tmp_path / "older.pdf"
    place.write_bytes(papers.rewritten(paper_bytes, lambda writer: writer.root_object.pop("/AcroForm") and None))
    with pytest.raises(NotSigned, match=r"has no field to sign in.*sign it by hand"):
        signing.listed(read(place))


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ({"ends": signers.NOW - signers.DAY / 2}, "has expired: it ended on"),
        ({"begins": signers.NOW + signers.DAY}, "is not valid yet: it begins on"),
        ({"usage": signers.use(key_encipherment=True)}, "not issued for signatures"),
        ({"name": None}, "names nobody"),
        ({"kind": "dsa"}, "kind that papers are not signed with"),
    ],
)
def test_a_certificate_that_cannot_sign_is_refused(tmp_path: Path, said: dict[str, Any], told: str) -> None:
    with pytest.raises(NotSigned, match=told):
        signing.credential(signers.file(tmp_path / "person.p12", **said), signers.PASSPHRASE, signers.NOW)


def test_a_file_that_does_not_open_is_refused(tmp_path: Path) -> None:
    person = signers.file(tmp_path / "person.p12")
    with pytest.raises(NotSigned, match="the passphrase does not open it"):
        signing.credential(person, "another", signers.NOW)
    with pytest.raises(NotSigned, match="the passphrase does not open it"):
        signing.credential(person, "", signers.NOW)
    with pytest.raises(NotSigned, match="holds no private key"):
        signing.credential(signers.without_key(tmp_path / "half.p12"), signers.PASSPHRASE, signers.NOW)
    for content in (b"", b"-----BEGIN CERTIFICATE-----\n", b"\x30\x03\x02\x01\x03", signers.root_der()):
        (tmp_path / "none.p12").write_bytes(content)
        with pytest.raises(NotSigned, match="no PKCS#12 file"):
            signing.credential(tmp_path / "none.p12", signers.PASSPHRASE, signers.NOW)
    (tmp_path / "long.p12").write_bytes(bytes(signing.CERTIFICATE_MAX + 1))
    with pytest.raises(NotSigned, match="longer than"):
        signing.credential(tmp_path / "long.p12", signers.PASSPHRASE, signers.NOW)
    for other in (tmp_path, tmp_path / "nowhere.p12", Path("/dev/zero"), Path("a\0b")):
        with pytest.raises(NotSigned, match=r"cannot be read|no ordinary file"):
            signing.credential(other, signers.PASSPHRASE, signers.NOW)


@pytest.mark.parametrize("step", range(12))
def test_a_torn_certificate_is_refused_in_words(tmp_path: Path, step: int) -> None:
    content = bytearray(signers.file(tmp_path / "person.p12").read_bytes())
    at = len(content) * step // 12
    content[at : at + 9] = bytes(9)
    (tmp_path / "torn.p12").write_bytes(content)
    with pytest.raises(NotSigned, match=r"torn\.p12"):
        signing.credential(tmp_path / "torn.p12", signers.PASSPHRASE, signers.NOW)


def test_a_file_without_a_passphrase_opens_without_one(tmp_path: Path) -> None:
    mine = signing.credential(signers.file(tmp_path / "person.p12", passphrase=""), "", signers.NOW)
    assert mine.name == "R. Voe"


def test_an_open_paper_is_signed_on_purpose_only(tmp_path: Path, paper_bytes: bytes) -> None:
    place = tmp_path / "open.pdf"
    place.write_bytes(paper_bytes)
    carried = read(place)
    count = len(papers.assessed(tmp_path).open)
    assert signing.open_items(carried) == count > 0
    with pytest.raises(StillOpen, match=f"is INCOMPLETE, {count} open items.*--incomplete|INCOMPLETE"):
        signing.refuse_open(carried, Allowed())
    assert signing.refuse_open(carried, Allowed(incomplete=True)) == count


def test_open_items_are_counted_from_the_findings_where_the_page_cannot_be_read(tmp_path: Path, paper_bytes: bytes) -> None:
    def wipe(writer: PdfWriter) -> None:
        writer.pages[0][NameObject("/Contents")] = writer._add_object(DecodedStreamObject())

    place = tmp_path / "blank.pdf"
    place.write_bytes(papers.rewritten(paper_bytes, wipe))
    assert signing.open_items(read(place)) == len(papers.assessed(tmp_path).open)


def test_only_a_paper_as_it_was_issued_is_signed(tmp_path: Path, paper_bytes: bytes, once: bytes) -> None:
    def asked(content: bytes, allowed: Allowed) -> Verified | None:
        place = tmp_path / "asked.pdf"
        place.write_bytes(content)
        return signing.proved(read(place), allowed)

    for content in (paper_bytes, once):
        assert asked(content, Allowed()) is not None
    for wrong in (papers.with_figure(paper_bytes, 3), papers.with_note(paper_bytes, 2), papers.rewritten(paper_bytes), once + again(once)):
        for allowed in (Allowed(), Allowed(incomplete=True, unproved=True)):
            with pytest.raises(NotAsIssued, match="It was not signed"):
                asked(wrong, allowed)


@pytest.mark.long
def test_a_paper_of_another_release_is_signed_on_purpose_only(tmp_path: Path, paper_bytes: bytes) -> None:
    older = papers.with_inside(paper_bytes, "findings.json", lambda text: re.sub(rb'"engine": "[0-9a-f]{4}', b'"engine": "0000', text))
    older = papers.with_inside(older, "findings.json", lambda text: re.sub(rb'"liftout": "[^"]*"', b'"liftout": "0.4.9"', text))
    place = tmp_path / "older.pdf"
    place.write_bytes(older)
    with pytest.raises(NotAsIssued, match=r"cannot be proved by this release.*0\.4\.9(.|\n)*--unproved"):
        signing.proved(read(place), Allowed())
    found = signing.proved(read(place), Allowed(unproved=True))
    assert found is not None
    assert found.outcome is Outcome.NOT_PROVED


@pytest.mark.parametrize("at", [193, 962, 4797, 16500])
def test_noise_in_a_signature_is_told_in_words(tmp_path: Path, paper_bytes: bytes, once: bytes, at: int) -> None:
    place, torn = tmp_path / "torn.pdf", bytearray(once)
    at = min(len(paper_bytes) + at, len(torn) - 100)
    torn[at : at + 30] = bytes(range(7, 37))
    place.write_bytes(torn)
    try:
        told = [name.name for name, _ in signing.listed(read(place))]
    except NotRead as reason:
        told = [str(reason)]
    assert told


def test_a_list_of_fields_that_is_none_is_told_in_words(tmp_path: Path, paper_bytes: bytes) -> None:
    def forge(writer: PdfWriter) -> None:
        form: Any = writer.root_object["/AcroForm"]
        form[NameObject("/Fields")] = NumberObject(7)

    place = tmp_path / "forged.pdf"
    place.write_bytes(papers.rewritten(paper_bytes, forge))
    with pytest.raises(NotRead, match="damaged"):
        signing.listed(read(place))


# --- the new file ------------------------------------------------------------------------------------------------------


def test_the_signed_paper_lies_beside_the_given_one() -> None:
    assert signing.place_for(Path("a/SFW-1-3.pdf"), 1) == Path("a/SFW-1-3-signed.pdf")
    assert signing.place_for(Path("a/SFW-1-3-signed.pdf"), 2) == Path("a/SFW-1-3-signed-2.pdf")
    assert signing.place_for(Path("a/SFW-1-3-signed-2.pdf"), 3) == Path("a/SFW-1-3-signed-3.pdf")


def test_nothing_is_ever_written_over(tmp_path: Path) -> None:
    there = tmp_path / "there.pdf"
    there.write_bytes(b"kept")
    (tmp_path / "link.pdf").symlink_to(tmp_path / "nowhere.pdf")
    for place in (there, tmp_path / "link.pdf"):
        with pytest.raises(NotSigned, match="is there already"):
            signing.write_new(place, b"new")
    assert there.read_bytes() == b"kept"
    with pytest.raises(NotSigned, match="cannot be written"):
        signing.write_new(tmp_path / "no" / "folder.pdf", b"new")
    signing.write_new(tmp_path / "new.pdf", b"new")
    assert sorted(place.name for place in tmp_path.iterdir()) == ["link.pdf", "new.pdf", "there.pdf"]


def test_a_file_system_without_second_names_is_written_to_as_well(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def none(*_: object) -> None:
        raise OSError(95, "Operation not supported")

    monkeypatch.setattr("os.link", none)
    signing.write_new(tmp_path / "new.pdf", b"new")
    with pytest.raises(NotSigned, match="is there already"):
        signing.write_new(tmp_path / "new.pdf", b"other")
    assert [(place.name, place.read_bytes()) for place in tmp_path.iterdir()] == [("new.pdf", b"new")]


def test_fields_that_a_stranger_named_are_told_without_what_a_terminal_obeys(paper_bytes: bytes) -> None:
    def rename(writer: PdfWriter) -> None:
        form: Any = writer.root_object["/AcroForm"]
        form["/Fields"][0].get_object()[NameObject("/T")] = TextStringObject("a\x1b[31mb\u202e" + "x" * 500)

    named = fields(pypdf.PdfReader(io.BytesIO(papers.rewritten(paper_bytes, rename))))[0].name
    assert named.isprintable()
    assert len(named) <= 80
