"""Nobody but the person at this machine, with the address that was printed, gets an answer."""

from __future__ import annotations

import os
import re
import shlex
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from urllib.parse import urlencode

import pytest

from liftout.desk.bench import digest_of
from liftout.desk.serve import BODY_MOST, Server
from liftout.resources import folder
from tests.desk.desks import RUN, ask, at, desk, put, raw


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    with desk(put(tmp_path_factory.mktemp("desk"))) as opened:
        yield opened


def form(server: Server) -> str:
    """A form that would be entered if it came from the right page."""
    return urlencode({"digest": digest_of(server.bench.file.read_bytes()), "value:duty": "intermittent"})


def test_the_page_is_answered_with_the_token_and_says_to_a_browser_what_it_may_load(server: Server) -> None:
    answer = ask(server)
    assert answer.code == 200
    assert "default-src 'none'" in answer.headers["Content-Security-Policy"]
    assert "unsafe" not in answer.headers["Content-Security-Policy"]
    assert answer.headers["Cache-Control"] == "no-store"
    assert "Set-Cookie" not in answer.headers
    assert not re.search(r"(?:src|href|action)=\"(?:https?:)?//", answer.text)
    assert "Access-Control-Allow-Origin" not in answer.headers


@pytest.mark.parametrize("path", ["/", "/news", "/desk.css", "/{short}/", "/{token}x/", "/{token}", "/%2e%2e/{token}/", "/é/"])
def test_without_the_token_nothing_is_shown(server: Server, path: str) -> None:
    typed = path.format(token=server.token, short=server.token[:-1]).encode("utf-8").decode("latin-1")
    with socket.create_connection(server.server_address, timeout=10) as caller:
        caller.sendall(f"GET {typed} HTTP/1.1\r\nHost: {server.host}\r\n\r\n".encode("latin-1"))
        answer = caller.makefile("rb").read().decode()
    assert answer.splitlines()[0].split()[1] == "403"
    assert server.token not in answer
    assert "wiring" not in answer


@pytest.mark.parametrize("host", ["evil.example", "localhost:{port}", "evil.example:{port}", "127.0.0.1", "127.0.0.1:1", ""])
def test_another_name_of_this_machine_is_refused(server: Server, host: str) -> None:
    with socket.create_connection(server.server_address, timeout=10) as caller:
        named = f"Host: {host.format(port=server.server_address[1])}\r\n" if host else ""
        caller.sendall(f"GET /{server.token}/ HTTP/1.1\r\n{named}\r\n".encode())
        answer = caller.makefile("rb").read().decode()
    assert answer.splitlines()[0].split()[1] == "403"
    assert "wiring" not in answer


def test_two_hosts_are_refused(server: Server) -> None:
    with socket.create_connection(server.server_address, timeout=10) as caller:
        caller.sendall(f"GET /{server.token}/ HTTP/1.1\r\nHost: {server.host}\r\nHost: evil.example\r\n\r\n".encode())
        assert caller.makefile("rb").readline().split()[1] == b"403"


@pytest.mark.parametrize("origin", ["https://evil.example", "null", "http://localhost:{port}", "http://127.0.0.1", "https://127.0.0.1:{port}", ""])
def test_a_form_of_another_page_changes_nothing(server: Server, origin: str) -> None:
    before = server.bench.file.read_bytes()
    answer = ask(server, at(RUN), "POST", form(server), Origin=origin.format(port=server.server_address[1]))
    assert answer.code == 403
    assert server.bench.file.read_bytes() == before


@pytest.mark.parametrize("headers", [{"Origin": "https://evil.example"}, {"Sec_Fetch_Site": "cross-site"}, {"Sec_Fetch_Site": "same-site"}])
def test_another_page_gets_no_look_either(server: Server, headers: dict[str, str]) -> None:
    assert ask(server, **headers).code == 403
    assert ask(server, "news", **headers).code == 403


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS", "HEAD", "TRACE", "FETCH"])
def test_any_other_method_is_refused(server: Server, method: str) -> None:
    before = server.bench.file.read_bytes()
    assert ask(server, at(RUN), method).code == 405
    assert raw(server, "/", method).code == 403
    assert server.bench.file.read_bytes() == before


def test_a_huge_form_is_refused_before_it_is_read(server: Server) -> None:
    with socket.create_connection(server.server_address, timeout=10) as caller:
        head = f"POST /{server.token}/ HTTP/1.1\r\nHost: {server.host}\r\nOrigin: http://{server.host}\r\n"
        caller.sendall(f"{head}Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {BODY_MOST + 1}\r\n\r\n".encode())
        assert caller.makefile("rb").readline().split()[1] == b"413"
    assert ask(server, at(RUN), "POST", "&".join(f"a{number}=" for number in range(5000))).code == 400


@pytest.mark.parametrize(
    ("headers", "code"),
    [
        ({"Content_Type": "text/plain"}, 415),
        ({"Content_Type": "application/json"}, 415),
        ({"Content_Length": "-1"}, 411),
        ({"Content_Length": "x"}, 411),
    ],
)
def test_what_is_no_form_is_refused(server: Server, headers: dict[str, str], code: int) -> None:
    before = server.bench.file.read_bytes()
    assert ask(server, at(RUN), "POST", form(server), **headers).code == code
    assert server.bench.file.read_bytes() == before


@pytest.mark.parametrize(
    "name", ["../job.yaml", "..%2f..%2fetc/passwd", "job.yaml", "/etc/passwd", "serve.py", "OFL.txt", "..", "%00", "fonts/../serve.py"]
)
def test_no_path_leads_out_of_the_desk(server: Server, name: str) -> None:
    answer = ask(server, name)
    assert answer.code == 404
    assert "liftout:" not in answer.text


@pytest.mark.parametrize(
    "path", [("nothing",), ("papers", "number"), ("wiring", "runs", "W1", "length"), ("equipment", ""), ("papers", "revisions", "99")]
)
def test_what_is_no_part_is_not_found(server: Server, path: tuple[str, ...]) -> None:
    assert ask(server, at(path)).code == 404
    assert ask(server, at(path), "POST", form(server)).code == 404


def test_the_desk_listens_on_this_machine_alone(server: Server) -> None:
    assert server.server_address[0] == "127.0.0.1"
    assert len(server.token) >= 40
    with Server(server.bench.file) as other:
        assert other.token != server.token
        assert other.server_address[1] != server.server_address[1]


@pytest.mark.skipif(os.name != "posix", reason="Ctrl-C is sent otherwise there")
def test_the_command_of_the_handbook_prints_the_address_and_ends_on_ctrl_c(tmp_path: Path) -> None:
    (typed,) = (folder("site") / "handbook" / "desk.md").read_text(encoding="utf-8").split("```")[1::2]
    program, *words = shlex.split(typed)
    assert program == "liftout"
    put(tmp_path).parent.rename(tmp_path / "jobs" / "my_job")
    started = [sys.executable, "-m", "liftout.cli.main", *words, "--no-open"]
    # A run in the background is born deaf to the signal, and hands that on.
    heeding = partial(signal.signal, signal.SIGINT, signal.default_int_handler)
    streams = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE}
    with subprocess.Popen(started, cwd=tmp_path, **streams, text=True, preexec_fn=heeding) as running:  # noqa: PLW1509  no thread runs here
        assert running.stdout is not None
        address = running.stdout.readline().strip()
        assert re.fullmatch(r"http://127\.0\.0\.1:\d+/[\w-]{40,}/", address)
        running.send_signal(signal.SIGINT)
        out, err = running.communicate(timeout=30)
    assert running.returncode == 0
    assert err == ""
    assert "closed" in out


def test_the_command_gives_up_in_words(tmp_path: Path, server: Server) -> None:
    from tests.cli.test_check import run

    code, _, err = run("desk", tmp_path / "none.yaml", "--no-open")
    assert (code, "no such file" in err) == (65, True)
    code, _, err = run("desk", server.bench.file, "--no-open", "--port", server.server_address[1])
    assert (code, "cannot be used" in err) == (2, True)
