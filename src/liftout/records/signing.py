"""A person signs a paper with the person's own certificate, in a field that was issued empty.

The tool signs nothing by itself and keeps no key: it writes down what the person's certificate says, in a new file, behind
the paper as it was given. No clock but this computer's is asked, and no network. A wet signature is as good as ever.
"""

from __future__ import annotations

import datetime
import io
import os
import re
import stat
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from liftout.documents import signature_appearance
from liftout.records.carried import Carried, NotRead
from liftout.records.exclusive import create
from liftout.records.signed import CHECKER, Field, Signed, behind, fields
from liftout.records.verified import Outcome, Verified, verify

if TYPE_CHECKING:
    from asn1crypto.keys import PrivateKeyInfo
    from asn1crypto.x509 import Certificate

CERTIFICATE_MAX: Final = 1_000_000
"""Bytes of a file with a certificate and its key."""
OPEN_PAPER: Final = re.compile(r"(INCOMPLETE-NOTFORINSTALLATION|AS-FITTEDRECORDNOTCLOSED),(\d+)openitem")
"""What stands at the top of each page of a paper on which somebody has to act yet, without its spaces."""


class NotSigned(Exception):
    """A paper that was not signed: why, and what to do."""


class StillOpen(NotSigned):
    """A paper on which somebody has to act yet, and which the person was not told to sign all the same."""


class NotAsIssued(NotSigned):
    """A paper that is not as it was issued."""


@dataclass(frozen=True)
class Credential:
    """A person's certificate and key, as they came out of the person's file."""

    name: str
    certificate: Certificate
    key: PrivateKeyInfo
    others: tuple[Certificate, ...]
    until: datetime.datetime


@dataclass(frozen=True, slots=True)
class Allowed:
    """What the person said to sign all the same: a paper on which items are open; one that this release cannot prove."""

    incomplete: bool = False
    unproved: bool = False


def needs_library() -> None:
    """Stop where the library for signatures is not installed.

    Raises:
        NotSigned: says how to install it.
    """
    try:
        import pyhanko.sign  # noqa: F401 - whether it is there
    except ModuleNotFoundError:
        raise NotSigned(
            f'Signing needs a library that is not installed. Install it with  pip install "{CHECKER}"  or print the paper and sign it by hand.'
        ) from None


def listed(carried: Carried) -> tuple[tuple[Field, Signed | None], ...]:
    """The signature fields of a paper, each with the signature on it.

    Raises:
        NotSigned: when there are none.
        NotRead: when a signature cannot be read.
    """
    with _reading(carried):
        found, after = fields(carried.reader), behind(carried.content, carried.reader)
    if not found:
        raise NotSigned(
            f"{carried.file}: has no field to sign in. Papers of liftout 0.4.0 and before have none, and annexes neither. "
            "Issue the docket again as a new revision, or print the paper and sign it by hand."
        )
    signed = {one.field: one for one in after.signatures} if after is not None else {}
    return tuple((field, signed.get(field.name)) for field in found)


@contextmanager
def _reading(carried: Carried) -> Iterator[None]:
    """Turn whatever a damaged or forged file breaks in a library into words about that file."""
    try:
        yield
    except (NotSigned, NotRead):
        raise
    except Exception as error:  # noqa: BLE001 - such a file breaks a library in any way there is
        fault = str(error) if type(error) is ValueError else type(error).__name__
        raise NotRead(f"{carried.file}: a part of it is damaged, or a signature on it cannot be read ({fault}). Get the file again.") from None


def field_named(carried: Carried, name: str) -> Field:
    """The field of that name, which must be empty.

    Raises:
        NotSigned: when there is no such field, or it is signed; lists those that can be signed.
        NotRead: when a signature cannot be read.
    """
    found = listed(carried)
    free = [field.name for field, _ in found if not field.signed]
    choice = f"Fields that can be signed: {'; '.join(free)}." if free else "Every field of it is signed."
    for field, signature in found:
        if field.name.casefold() != " ".join(name.split()).casefold():
            continue
        if field.signed:
            by = f" by {signature.by}" if signature is not None and signature.by else ""
            raise NotSigned(f'{carried.file}: the field "{field.name}" is signed already{by}. A signature is never replaced. {choice}')
        return field
    raise NotSigned(f'{carried.file}: has no field "{name}". {choice}')


# --- the certificate -------------------------------------------------------------------------------------------


def credential(path: Path, passphrase: str, now: datetime.datetime) -> Credential:
    """What a PKCS#12 file holds, where a person may sign with it at that moment.

    Args:
        path: the file.
        passphrase: that opens it; empty where it has none.
        now: with its zone.

    Raises:
        NotSigned: when it cannot be opened, or is not for signing, or not at that time; says why.
    """
    from cryptography import x509
    from cryptography.hazmat.primitives.asymmetric import ec, ed25519, rsa
    from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat

    key, certificate, others = _opened(path, passphrase)
    if certificate is None or key is None:
        missing = "private key" if key is None else "certificate"
        raise NotSigned(f"{path}: holds no {missing}. Export the certificate again together with its private key, as a PKCS#12 file.")
    if not isinstance(key, rsa.RSAPrivateKey | ec.EllipticCurvePrivateKey | ed25519.Ed25519PrivateKey):
        raise NotSigned(f"{path}: its key is of a kind that papers are not signed with. Use a certificate with an RSA or an elliptic-curve key.")
    if key.public_key() != certificate.public_key():
        raise NotSigned(f"{path}: its private key does not belong to its certificate. Export both again from where the certificate was issued.")
    begins, ends = certificate.not_valid_before_utc, certificate.not_valid_after_utc
    if now < begins:
        raise NotSigned(
            f"{path}: the certificate is not valid yet: it begins on {begins:%Y-%m-%d at %H:%M} UTC, and this computer has {now:%Y-%m-%d}."
        )
    if now > ends:
        raise NotSigned(
            f"{path}: the certificate has expired: it ended on {ends:%Y-%m-%d at %H:%M} UTC, and this computer has {now:%Y-%m-%d}. "
            "Get a new one from whoever issued it, or sign by hand."
        )
    try:
        use = certificate.extensions.get_extension_for_class(x509.KeyUsage).value
        signs = use.digital_signature or use.content_commitment
    except x509.ExtensionNotFound:
        signs = True
    except ValueError:
        signs = False
    if not signs:
        raise NotSigned(
            f"{path}: the certificate is not issued for signatures: its key usage names neither digital signature nor content commitment."
        )
    name = _name(certificate)
    if not name:
        raise NotSigned(f"{path}: the certificate names nobody. Sign with a certificate that was issued to a person.")
    from asn1crypto import keys
    from asn1crypto import x509 as plain

    return Credential(
        name,
        plain.Certificate.load(certificate.public_bytes(Encoding.DER)),
        keys.PrivateKeyInfo.load(key.private_bytes(Encoding.DER, PrivateFormat.PKCS8, NoEncryption())),
        tuple(plain.Certificate.load(one.public_bytes(Encoding.DER)) for one in others),
        ends,
    )


def small_file(path: Path, most: int) -> bytes:
    """What a file of the person's own holds; a link is followed, since such a file may lie anywhere.

    Args:
        path: the file.
        most: bytes that it may have.

    Raises:
        NotSigned: when it cannot be read, is no ordinary file, or is larger.
    """
    try:
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
        with os.fdopen(handle, "rb") as stream:
            said = os.fstat(stream.fileno())
            content = stream.read(most + 1) if stat.S_ISREG(said.st_mode) else None
    except (OSError, ValueError) as error:
        raise NotSigned(f"{path}: cannot be read: {getattr(error, 'strerror', None) or error}.") from None
    if content is None or len(content) > most:
        wrong = "this is no ordinary file" if content is None else f"longer than {most} bytes"
        raise NotSigned(f"{path}: {wrong}.")
    return content


def _opened(path: Path, passphrase: str) -> tuple[Any, Any, list[Any]]:
    from asn1crypto import pkcs12 as form
    from cryptography.hazmat.primitives.serialization import pkcs12

    content = small_file(path, CERTIFICATE_MAX)
    wrong = f"{path}: this is no PKCS#12 file. Give the file with your certificate and its private key, which often ends in .p12 or .pfx."
    try:
        if form.Pfx.load(content)["version"].native != "v3":
            raise NotSigned(wrong)
    except (ValueError, TypeError):
        raise NotSigned(wrong) from None
    for word in (passphrase.encode(), None) if not passphrase else (passphrase.encode(),):
        try:
            return pkcs12.load_key_and_certificates(content, word)
        except (ValueError, TypeError):
            continue
        except Exception as error:  # noqa: BLE001 - ciphers that the library does not know, and whatever a forged file breaks
            raise NotSigned(f"{path}: cannot be opened ({type(error).__name__}). Export the certificate again with a current cipher.") from None
    raise NotSigned(f"{path}: the passphrase does not open it, or the file is damaged. Nothing was signed; try again.")


def _name(certificate: Any) -> str:
    from cryptography.x509.oid import NameOID

    for kind in (NameOID.COMMON_NAME, NameOID.PSEUDONYM, NameOID.EMAIL_ADDRESS, NameOID.ORGANIZATION_NAME):
        for found in certificate.subject.get_attributes_for_oid(kind):
            name = "".join(char if char.isprintable() else "?" for char in str(found.value)).strip()
            if name:
                return name
    return ""


# --- the paper -------------------------------------------------------------------------------------------------


def open_items(carried: Carried) -> int:
    """How many items are open on a paper, as it says itself; each page says it at its top, and its findings too."""
    with _reading(carried):
        top = OPEN_PAPER.search(re.sub(r"\s+", "", carried.reader.pages[0].extract_text()))
    verdicts = [one for one in carried.findings["findings"] if isinstance(one, dict)]
    waiting = sum(
        one.get("verdict") in ("does not conform", "not assessed") or (one.get("verdict") == "refer" and not one.get("decision")) for one in verdicts
    )
    return int(top[2]) if top else waiting


def proved(carried: Carried, allowed: Allowed, step: Callable[[str], None] = lambda _: None) -> Verified | None:
    """What came of issuing the paper again: a person signs what the tool can stand by. None where it cannot be issued again.

    Raises:
        NotAsIssued: when the paper is not as it was issued, or cannot be proved and the person did not say to sign it all the same.
        JobError: when the job inside cannot be read.
    """
    hint = "Look at the paper with care; to sign it all the same, add --unproved."
    try:
        found = verify(carried, step)
    except NotRead as reason:
        if allowed.unproved:
            return None
        raise NotAsIssued(f"{reason}\nSo this release cannot prove it, and it was not signed. {hint}") from None
    if found.outcome in (Outcome.HOLDS, Outcome.SIGNED) or (found.outcome is Outcome.NOT_PROVED and allowed.unproved):
        return found
    why = " ".join(found.why)
    if found.outcome is Outcome.NOT_PROVED:
        raise NotAsIssued(f"{carried.file}: {found.outcome}. {why}\nIt was not signed. {hint}")
    raise NotAsIssued(
        f"{carried.file}: {found.outcome}. {why}\nIt was not signed: what is signed must be the paper as it was issued. "
        "Get that file, or look with `liftout verify` at what is otherwise."
    )


def refuse_open(carried: Carried, allowed: Allowed) -> int:
    """The count of open items; stops where there are any and the person did not say to sign all the same.

    Raises:
        StillOpen: says what --incomplete is for.
    """
    count = open_items(carried)
    if count and not allowed.incomplete:
        raise StillOpen(
            f"{carried.file}: is INCOMPLETE, {count} open {'item' if count == 1 else 'items'}; every page says so. It was not signed.\n"
            "Close what is open and sign the paper that is issued then. Where this very paper is to be signed while items are open, to hand it to the "
            "person who decides them for example, add --incomplete: the signature then says so in its field."
        )
    return count


def signed(carried: Carried, field: Field, mine: Credential, now: datetime.datetime, open_count: int = 0) -> bytes:
    """The paper with one signature more behind it.

    Args:
        carried: the paper.
        field: an empty field of it.
        mine: the person's certificate and key.
        now: with its zone.
        open_count: how many items were open; the field says so.

    Raises:
        NotSigned: when what came out is not the paper with one more signature behind it.
    """
    from pyhanko.pdf_utils import layout
    from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
    from pyhanko.sign.fields import SigSeedSubFilter
    from pyhanko.sign.signers import PdfSignatureMetadata, PdfSigner, SimpleSigner
    from pyhanko.stamp import StaticStampStyle
    from pyhanko_certvalidator.registry import SimpleCertificateStore

    class Behind(IncrementalPdfFileWriter):
        """Writes behind a paper, whose title, dates and version stay as they were issued."""

        def _update_meta(self) -> None:
            pass

        def ensure_output_version(self, version: tuple[int, int]) -> None:
            pass

    known = SimpleCertificateStore()  # type: ignore[no-untyped-call]
    known.register_multiple(mine.others)
    signer = SimpleSigner(signing_cert=mine.certificate, signing_key=mine.key, cert_registry=known)
    purpose = field.told.removeprefix("Signature: ") or field.name
    about = PdfSignatureMetadata(
        field_name=field.name, md_algorithm="sha256", subfilter=SigSeedSubFilter.PADES, name=mine.name, reason=purpose, certify=False
    )
    with tempfile.TemporaryDirectory(prefix="liftout-") as place:
        picture = Path(place) / "signature.pdf"
        picture.write_bytes(signature_appearance.drawn(mine.name, _lines(now, open_count), *_size(carried, field)))
        whole = layout.SimpleBoxLayoutRule(
            layout.AxisAlignment.ALIGN_MID, layout.AxisAlignment.ALIGN_MID, layout.Margins(), layout.InnerScaling.STRETCH_FILL
        )
        look = StaticStampStyle.from_pdf_file(str(picture), border_width=0, background_layout=whole)
        with _reading(carried):
            writer = Behind(io.BytesIO(carried.content), strict=False)
            content: bytes = PdfSigner(about, signer, stamp_style=look).sign_pdf(writer).getvalue()
            _checked(carried, content, field)
    return content


def _lines(now: datetime.datetime, open_count: int) -> list[str]:
    when = f"Signed on {now:%Y-%m-%d} at {now:%H:%M} UTC by the clock of the signer's computer"
    said = "What is signed stands above. Who the signer is, the certificate tells."
    if open_count:
        said = f"Signed while the paper was INCOMPLETE: {open_count} open {'item' if open_count == 1 else 'items'}."
    return [when, said]


def _size(carried: Carried, field: Field) -> tuple[float, float]:
    with _reading(carried):
        form: Any = carried.reader.root_object["/AcroForm"]
        for one in form["/Fields"]:
            node = one.get_object()
            if str(node.get("/T")) == field.name:
                left, below, right, above = (float(side) for side in node["/Rect"])
                if 0 < right - left <= 2000 and 0 < above - below <= 2000:
                    return right - left, above - below
    raise NotSigned(f'{carried.file}: the field "{field.name}" has no place on a page. Get the file as it was issued.')


def _checked(carried: Carried, content: bytes, field: Field) -> None:
    """Look at what was made as `verify` will: the given bytes first, then this signature and nothing else."""
    from pypdf import PdfReader

    found = behind(content, PdfReader(io.BytesIO(content), strict=True))
    ours = [one for one in found.signatures if one.field == field.name] if found is not None else []
    if not content.startswith(carried.content) or not ours or not ours[0].intact:
        raise NotSigned(f"{carried.file}: the signature that was made does not fit the paper. Nothing was written; please tell the developers.")


# --- the new file ----------------------------------------------------------------------------------------------


def place_for(given: Path, count: int) -> Path:
    """Where the signed paper goes: beside the given one, `-signed` behind its name, with the count from the second signature on.

    Args:
        given: the paper.
        count: of signatures on the new one.
    """
    stem = re.sub(r"-signed(-\d+)?$", "", given.stem)
    return given.with_name(f"{stem}-signed{f'-{count}' if count > 1 else ''}{given.suffix}")


def refuse_taken(place: Path) -> None:
    """Stop where something is there already.

    Raises:
        NotSigned: says to name another file.
    """
    if os.path.lexists(place):
        raise NotSigned(f"{place}: is there already; it was left as it is. Nothing is ever signed over a file: name a new one with --out.")


def write_new(place: Path, content: bytes) -> None:
    """Write a file that must not be there: whole, or not at all.

    Raises:
        NotSigned: when it is there, or cannot be written.
    """
    try:
        create(place, content)
    except FileExistsError:
        refuse_taken(place)
    except OSError as error:
        raise NotSigned(f"{place}: cannot be written: {error.strerror}. Nothing was written.") from None
