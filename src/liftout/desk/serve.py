"""The page over HTTP, to the person at this machine alone.

Any page that a browser has open can send requests to this machine, and a name of the network can be made to point at it.
So a request is answered only if it names this very address, carries the token that was printed, and, where it changes
something, comes from our own page.
"""

from __future__ import annotations

import hmac
import json
import os
import secrets
import sys
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from importlib.resources import files
from pathlib import Path
from typing import Any, Final
from urllib.parse import parse_qsl, quote, urlsplit

from liftout.desk.bench import Bench, Refused, Seen
from liftout.desk.page import help_shown, page
from liftout.desk.parts import NoSuchPart, Path_
from liftout.resources import folder

HERE: Final = "127.0.0.1"
BODY_MOST: Final = 256_000
"""Bytes of a form: the longest part of a job has a twentieth of it."""
FIELDS_MOST: Final = 4_000
PATIENCE_S: Final = 10
TOKEN_BYTES: Final = 32
POLICY: Final = (
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src data:; connect-src 'self'; form-action 'self'; "
    "base-uri 'none'; frame-ancestors 'none'"
)
HEADERS: Final = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    # Not "no-referrer": a browser then hides from us that a form comes from our own page.
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cache-Control": "no-store",
}
FONTS: Final = ("IBMPlexSans-Regular.woff2", "IBMPlexSans-Bold.woff2", "IBMPlexMono-Regular.woff2")


class Server(ThreadingHTTPServer):
    """The desk of one job."""

    daemon_threads = True
    allow_reuse_address = os.name == "posix"

    def __init__(self, job: Path, port: int = 0) -> None:
        """Open the desk.

        Args:
            job: the job file.
            port: number of the port; 0 lets the system choose.

        Raises:
            OSError: when the port is taken.
        """
        self.bench = Bench(job)
        self.token = secrets.token_urlsafe(TOKEN_BYTES)
        self.before: Seen | None = None
        super().__init__((HERE, port), Handler)

    @property
    def host(self) -> str:
        """What a request has to name as its host."""
        return f"{HERE}:{self.server_address[1]}"

    @property
    def address(self) -> str:
        """What a browser opens."""
        return f"http://{self.host}/{self.token}/"

    def handle_error(self, request: Any, client_address: Any) -> None:  # noqa: ARG002 - the library's own names
        """Tell that the tool broke; a browser that went away is no fault."""
        if not isinstance(sys.exception(), OSError):
            print(f"liftout itself is broken: {sys.exception()}. Nothing was written.", file=sys.stderr)


class Handler(BaseHTTPRequestHandler):
    """One request."""

    server: Server
    server_version = "liftout"
    sys_version = ""
    timeout = PATIENCE_S
    error_message_format = "%(code)d %(message)s\n"
    error_content_type = "text/plain; charset=utf-8"

    def log_message(self, format: str, *arguments: Any) -> None:  # noqa: A002 - the library's own name
        """Say nothing: an address holds the token."""

    def do_GET(self) -> None:
        """Show a part, or what its page is made with."""
        found = self._admitted()
        if found is None:
            return
        name, query = found
        if name == "":
            self._show(query)
        elif name == "news":
            told = {"mark": self.server.bench.seen().mark, "looking at": self.server.bench.looking_at}
            self._send(200, json.dumps(told).encode(), "application/json")
        elif name == "helps":
            self._help(query)
        elif name in ("desk.css", "desk.js"):
            kind = "text/css" if name.endswith("css") else "text/javascript"
            self._send(200, files("liftout.desk").joinpath(name).read_bytes(), f"{kind}; charset=utf-8")
        elif name in FONTS:
            self._send(200, (folder("site") / "fonts" / name).read_bytes(), "font/woff2")
        else:
            self._refuse(404, "there is no such page")

    def do_POST(self) -> None:
        """Enter what was typed into the form of a part."""
        found = self._admitted()
        if found is None:
            return
        name, query = found
        if self.headers.get("Origin") != f"http://{self.server.host}":
            self._refuse(403, "this does not come from the desk's own page")
        elif name:
            self._refuse(405, "nothing is entered here")
        elif self.headers.get_content_type() != "application/x-www-form-urlencoded" or "Transfer-Encoding" in self.headers:
            self._refuse(415, "this is no form")
        elif not (length := self.headers.get("Content-Length", "")).isascii() or not length.isdigit():
            self._refuse(411, "a form says how long it is")
        elif int(length) > BODY_MOST:
            self._refuse(413, "this is longer than any form")
        else:
            self._enter(query, self.rfile.read(int(length)))

    def _other(self) -> None:
        if self._admitted() is not None:
            self._refuse(405, "only GET and POST are answered")

    def __getattr__(self, name: str) -> Any:
        """Answer a request of any other kind with what is right, and not with what the library knows of it."""
        if name.startswith("do_"):
            return self._other
        raise AttributeError(name)

    # --- who may ask -----------------------------------------------------------------------------------------------

    def _admitted(self) -> tuple[str, str] | None:
        """What is asked for behind the token, and the query; None where the request was refused."""
        own = self.server.host
        hosts = self.headers.get_all("Host", [])
        parts = urlsplit(self.path) if self.path.startswith("/") and not self.path.startswith("//") else None
        if hosts != [own]:
            self._refuse(403, "this address has another name")
            return None
        ours = self.headers.get("Origin", f"http://{own}") == f"http://{own}"
        if not ours or self.headers.get("Sec-Fetch-Site", "none") not in ("same-origin", "none"):
            self._refuse(403, "this comes from another page")
            return None
        token, slash, name = parts.path[1:].partition("/") if parts is not None else ("", "", "")
        if parts is None or not slash or not hmac.compare_digest(token.encode("utf-8", "replace"), self.server.token.encode()):
            self._refuse(403, "the address is not the one that liftout desk printed")
            return None
        return name, parts.query

    # --- what is answered ------------------------------------------------------------------------------------------

    def _show(self, query: str) -> None:
        asked = _pairs(query)
        if asked is None:
            self._refuse(400, "this is no address of a part")
            return
        path: Path_ = tuple(word.strip() for key, word in asked if key == "at")
        names = [word for key, word in asked if key == "entered"]
        news = f"Entered: {', '.join(names)}." if names else "Nothing was changed." if ("same", "1") in asked else ""
        asked_of = next((word for key, word in asked if key == "helps"), "")
        helped = self.server.bench.helped(asked_of) if asked_of else None
        self._page(200, self.server.bench.seen(), path, before=self.server.before if names else None, news=news, helped=helped)

    def _help(self, query: str) -> None:
        asked = _pairs(query) or []
        helped = self.server.bench.helped(next((word for key, word in asked if key == "of"), ""))
        if helped is None:
            self._refuse(404, "no finding of that name fails now")
        else:
            self._send(200, help_shown(helped).encode("utf-8"), "text/html; charset=utf-8")

    def _enter(self, query: str, body: bytes) -> None:
        asked, typed = _pairs(query), _pairs(body.decode("ascii", "replace"))
        if asked is None or typed is None:
            self._refuse(400, "this is no form of the desk")
            return
        path: Path_ = tuple(word for key, word in asked if key == "at")
        form = dict(typed)
        try:
            done, before, _ = self.server.bench.change(path, form, form.get("digest", ""))
        except NoSuchPart:
            self._refuse(404, "no job has such a part")
        except Refused as reason:
            words = "Not entered: the job file was changed elsewhere." if reason.stale else "Not entered; the file is as it was."
            self._page(409 if reason.stale else 422, self.server.bench.seen(), path, news=words, typed=form, wrong=reason.wrong, stale=reason.stale)
        else:
            if done.changes:
                self.server.before = before
            words = "&".join((*(f"at={quote(word, safe='')}" for word in path), *(f"entered={quote(name, safe='')}" for name in done.names)))
            self._headers(303, 0, "text/plain", {"Location": f"/{self.server.token}/?{words}{'' if done.names else '&same=1'}"})

    def _page(self, code: int, seen: Seen, path: Path_, **more: Any) -> None:
        try:
            text = page(seen, self.server.bench.file.name, path, **more)
        except NoSuchPart:
            self._refuse(404, "no job has such a part")
            return
        self._send(code, text.lstrip().encode("utf-8"), "text/html; charset=utf-8")

    def _refuse(self, code: int, why: str) -> None:
        self._send(code, f"{code}: {why}.\n".encode(), "text/plain; charset=utf-8")

    def _send(self, code: int, content: bytes, kind: str) -> None:
        self._headers(code, len(content), kind)
        if self.command != "HEAD":
            self.wfile.write(content)

    def _headers(self, code: int, length: int, kind: str, more: dict[str, str] | None = None) -> None:
        self.send_response(code)
        for name, value in {"Content-Type": kind, "Content-Length": str(length), "Connection": "close", **HEADERS, **(more or {})}.items():
            self.send_header(name, value)
        self.end_headers()
        self.close_connection = True


def _pairs(text: str) -> list[tuple[str, str]] | None:
    """Names and values of a form or a query; None where it is none."""
    try:
        return parse_qsl(text, keep_blank_values=True, errors="strict", max_num_fields=FIELDS_MOST)
    except ValueError:
        return None
