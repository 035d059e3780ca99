"""The workers of a dask cluster instead of the cores of this machine (extra `fleet`)."""

from __future__ import annotations

import ipaddress
import re
from collections.abc import Iterator
from concurrent.futures import CancelledError, Executor
from contextlib import contextmanager
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import Any, Final

TRIES: Final = 3
"""How many times a job is given out again when the worker that had it was lost."""
_PER_THREAD: Final = 4
_AT_LEAST: Final = 32
_ADDRESS: Final = re.compile(r"(?:(?P<scheme>tcp|tls)://)?(?P<host>\[[0-9A-Fa-f:.]+\]|[A-Za-z0-9_.-]+):(?P<port>[0-9]{1,5})")


class NotReached(Exception):
    """A cluster that cannot be used: why, and what to do."""


@dataclass(frozen=True, slots=True)
class Certificates:
    """Files that prove to each other who is who: of the authority, of this client, and its key."""

    authority: Path | None = None
    own: Path | None = None
    key: Path | None = None


def address_of(text: str) -> str:
    """The address of a scheduler, with its scheme.

    Raises:
        NotReached: when it is none, or would send jobs unencrypted beyond this machine.
    """
    found = _ADDRESS.fullmatch(text)
    if found is None:
        raise NotReached(f'"{text}" is no address of a scheduler. Write tls://host:8786, or tcp://127.0.0.1:8786 on this machine.')
    scheme = found["scheme"] or ("tcp" if _on_this_machine(found["host"]) else "tls")
    if scheme == "tcp" and not _on_this_machine(found["host"]):
        raise NotReached(f"{text} would carry jobs, with names of owners, unencrypted over the network. Start the cluster with TLS and write tls://.")
    return f"{scheme}://{found['host']}:{found['port']}"


def _on_this_machine(host: str) -> bool:
    try:
        return ipaddress.ip_address(host.strip("[]")).is_loopback
    except ValueError:
        return host == "localhost"


class Cluster:
    """Workers of a cluster."""

    def __init__(self, client: Any) -> None:
        self._client = client
        self.at_once = max(_AT_LEAST, _PER_THREAD * sum(client.nthreads().values()))

    def hired(self, *, alone: bool = False) -> Executor:  # noqa: ARG002 - a worker that dies there takes nobody with it
        """The cluster as an executor; what a lost worker had is given to another."""
        executor: Executor = self._client.get_executor(pure=False, retries=TRIES)
        return executor


@contextmanager
def cluster(text: str, certificates: Certificates, patience_s: float = 30.0) -> Iterator[Cluster]:
    """The cluster at an address, for as long as it is used.

    Args:
        text: its address.
        certificates: for an encrypted one.
        patience_s: how many seconds it is waited for.

    Raises:
        NotReached: when it cannot be used.
    """
    address = address_of(text)
    try:
        distributed: Any = import_module("distributed")
    except ImportError:
        raise NotReached(
            "A cluster needs the extra fleet: pip install 'liftout[fleet]'. Without --cluster, the cores of this machine do it."
        ) from None
    security = None
    if address.startswith("tls://"):
        if certificates.authority is None or certificates.own is None or certificates.key is None:
            raise NotReached("An encrypted cluster needs --tls-ca, --tls-cert and --tls-key.")
        security = distributed.Security(
            tls_ca_file=str(certificates.authority),
            tls_client_cert=str(certificates.own),
            tls_client_key=str(certificates.key),
            require_encryption=True,
        )
    try:
        client = distributed.Client(address, security=security, timeout=patience_s, set_as_default=False)
    except (OSError, TimeoutError, ValueError) as error:
        raise NotReached(f"The cluster at {address} does not answer: {error}") from None
    try:
        client.wait_for_workers(1, timeout=patience_s)
        yield Cluster(client)
    except CancelledError:
        raise NotReached(f"The cluster at {address} was lost on the way. What was checked is kept; the same command goes on from there.") from None
    except TimeoutError:
        raise NotReached(f"The cluster at {address} has no worker. Start one with dask worker {address} --nthreads 1.") from None
    finally:
        client.close()
