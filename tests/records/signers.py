"""Invented persons with certificates of an invented issuer, made for one test and thrown away."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import dsa, ec, rsa
from cryptography.hazmat.primitives.serialization import BestAvailableEncryption, Encoding, NoEncryption, pkcs12
from cryptography.x509.oid import NameOID

PASSPHRASE = "a long word"
NOW = datetime.datetime.now(datetime.UTC)
DAY = datetime.timedelta(days=1)


@dataclass(frozen=True)
class Issuer:
    """Who issues certificates in these tests."""

    certificate: x509.Certificate
    key: Any


def named(name: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.ORGANIZATION_NAME, "Invented Registry"), x509.NameAttribute(NameOID.COMMON_NAME, name)])


@cache
def issuer() -> Issuer:
    """A root of its own."""
    key = ec.generate_private_key(ec.SECP256R1())
    certificate = (
        x509.CertificateBuilder()
        .subject_name(named("Root of a test"))
        .issuer_name(named("Root of a test"))
        .public_key(key.public_key())
        .serial_number(1)
        .not_valid_before(NOW - 9 * DAY)
        .not_valid_after(NOW + 90 * DAY)
        .add_extension(x509.BasicConstraints(ca=True, path_length=None), critical=True)
        .add_extension(use(key_cert_sign=True, crl_sign=True), critical=True)
        .sign(key, hashes.SHA256())
    )
    return Issuer(certificate, key)


def use(**named_uses: bool) -> x509.KeyUsage:
    """What a key is for."""
    every = ("digital_signature", "content_commitment", "key_encipherment", "data_encipherment", "key_agreement", "key_cert_sign", "crl_sign")
    return x509.KeyUsage(**{one: named_uses.get(one, False) for one in every}, encipher_only=False, decipher_only=False)


def certified(
    name: str | None,
    key: Any,
    begins: datetime.datetime = NOW - DAY,
    ends: datetime.datetime = NOW + 30 * DAY,
    usage: x509.KeyUsage | None = None,
) -> x509.Certificate:
    """A certificate of that key."""
    root = issuer()
    return (
        x509.CertificateBuilder()
        .subject_name(named(name) if name is not None else x509.Name([]))
        .issuer_name(root.certificate.subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(begins)
        .not_valid_after(ends)
        .add_extension(usage or use(digital_signature=True, content_commitment=True), critical=True)
        .sign(root.key, hashes.SHA256())
    )


def key(kind: str = "elliptic curve") -> Any:
    """A new key."""
    match kind:
        case "elliptic curve":
            return ec.generate_private_key(ec.SECP256R1())
        case "rsa":
            return rsa.generate_private_key(65537, 2048)
        case _:
            return dsa.generate_private_key(1024)


def file(place: Path, name: str | None = "R. Voe", *, passphrase: str = PASSPHRASE, kind: str = "elliptic curve", **said: Any) -> Path:
    """A person's PKCS#12 file."""
    mine = key(kind)
    lock = BestAvailableEncryption(passphrase.encode()) if passphrase else NoEncryption()
    content = pkcs12.serialize_key_and_certificates(b"test", mine, certified(name, mine, **said), [issuer().certificate], lock)
    place.write_bytes(content)
    return place


def without_key(place: Path) -> Path:
    """A PKCS#12 file with a certificate alone."""
    content = pkcs12.serialize_key_and_certificates(b"test", None, certified("R. Voe", key()), None, BestAvailableEncryption(PASSPHRASE.encode()))
    place.write_bytes(content)
    return place


def root_der() -> bytes:
    """The root, to be trusted by a validator."""
    return issuer().certificate.public_bytes(Encoding.DER)
