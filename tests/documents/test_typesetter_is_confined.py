"""The typesetter reads what it is given and nothing else: no file of this machine, no package of a person's own, none of a registry."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from liftout.documents import paper
from liftout.resources import folder
from tests.documents import sample

OUTSIDE = (
    '#read("{secret}")', '#read("../secret.txt")', '#read("../../../../../../../../etc/passwd")', '#image("{secret}")', '#include "{secret}"', '#plugin("{secret}")',
    '#bibliography("{secret}")', '#import "{secret}": x', '#csv("{secret}")', '#json("../../secret.txt")', '#read("way out/secret.txt")', '#import "@local/secret:0.1.0": x',
)  # fmt: skip


@pytest.mark.parametrize("source", OUTSIDE)
def test_a_program_that_reads_elsewhere_is_refused(source: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Were anybody's text to become a program, it would reach nothing."""
    secret = tmp_path / "secret.txt"
    secret.write_text("#let x = [the secret]", encoding="utf-8")
    package = tmp_path / "data" / "typst" / "packages" / "local" / "secret" / "0.1.0"
    package.mkdir(parents=True)
    (package / "typst.toml").write_text('[package]\nname = "secret"\nversion = "0.1.0"\nentrypoint = "lib.typ"\n', encoding="utf-8")
    (package / "lib.typ").write_text("#let x = [the secret]", encoding="utf-8")
    for name in ("XDG_DATA_HOME", "XDG_CACHE_HOME"):
        monkeypatch.setenv(name, str(tmp_path / "data"))
    with pytest.raises(paper.TypesetterError) as refused:
        paper._typeset(sample.document(), {"docket.typ": source.replace("{secret}", str(secret)).encode()}, format="pdf")
    assert "the secret" not in str(refused.value)
    assert re.search("not found|escape|denied", str(refused.value)), str(refused.value)


def test_a_program_that_reads_beside_itself_is_not_refused() -> None:
    files = {"docket.typ": b'#read("beside.txt")', "beside.txt": b"words"}
    assert paper._typeset(sample.document(), files, format="pdf").startswith(b"%PDF")


def test_the_shipped_programs_name_no_package_and_no_file_but_those_they_are_given() -> None:
    """A package of the public registry would be fetched when it is named; so none is."""
    for path in (folder("templates") / "print").glob("*.typ"):
        source = path.read_text(encoding="utf-8")
        assert not re.search(r"#?\b(import|include|plugin|eval)\b *[(\"]|@preview", source), path.name
        read = re.findall(r"\b(?:json|read|csv|yaml|toml|xml|image)\((?!bytes\()([^,)]*)", source)
        assert {*read} <= {'"docket.json"', '"issue.json"', '"signature.json"', "file.file", "doc.face.logo"}, path.name


DIALS = """
import os, socket, sys, threading
there, calls = socket.create_server(("127.0.0.1", 0)), []
def hang_up():
    while True:
        call, _ = there.accept()
        calls.append(call.recv(100))
        call.close()
threading.Thread(target=hang_up, daemon=True).start()
for name in ("HTTPS_PROXY", "HTTP_PROXY", "ALL_PROXY"):
    os.environ[name] = os.environ[name.lower()] = f"http://127.0.0.1:{there.getsockname()[1]}"
from liftout.documents import paper
from tests.documents import sample
if sys.argv[1] == "package":
    try: paper._typeset(sample.document(), {"docket.typ": b'#import "@preview/none-such:0.0.1": x'}, format="pdf")
    except paper.TypesetterError: pass
else: paper.write(sample.document())
print(len(calls))
"""


@pytest.mark.parametrize(("what", "calls"), [("paper", False), ("package", True)])
def test_nothing_is_fetched(what: str, calls: bool) -> None:
    """The sample, whose texts ask for it in vain; a program that names a package shows that a call would be seen."""
    said = {**os.environ, "no_proxy": "", "NO_PROXY": ""}
    done = subprocess.run([sys.executable, "-c", DIALS, what], cwd=Path(__file__).parents[2], env=said, capture_output=True, text=True, timeout=120)
    assert (int(done.stdout) > 0) == calls, done.stderr
