"""The shop's own face: read from `shop.yaml`, carried in the job, held to what a letterhead may be."""

from __future__ import annotations

import base64
import struct
import zlib
from pathlib import Path

import pytest

from liftout.identity.digests import job_digest
from liftout.identity.resolved import resolved_yaml
from liftout.job import Job, JobError, carried, load
from liftout.job.logo import BYTES_MAX, plain
from liftout.quantities import QuantityError
from liftout.resources import folder

SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10">{}</svg>'
JOB = "liftout: 1\npapers: {number: T-1, revision: A, date: 2026-11-20}\naircraft: {from: airframes/halden_4, serial number: X}\n"


def in_shop(place: Path, shop: str | None, job: str = JOB, logo: bytes = b"") -> Job:
    """A job of a shop, with that shop's file."""
    (place / "one").mkdir(exist_ok=True)
    (place / "airframes").mkdir(exist_ok=True)
    (place / "airframes" / "halden_4.yaml").write_bytes((folder("jobs") / "airframes" / "halden_4.yaml").read_bytes())
    (place / "one" / "job.yaml").write_text(job)
    if shop is not None:
        (place / "shop.yaml").write_text(shop)
    if logo:
        (place / "mark.png").write_bytes(logo)
    return load(place / "one" / "job.yaml")


def faults(place: Path, shop: str | None, job: str = JOB, logo: bytes = b"") -> str:
    with pytest.raises(JobError) as caught:
        in_shop(place, shop, job, logo)
    return str(caught.value)


def chunk(name: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def png(width: int = 3, height: int = 2, more: bytes = b"", rows: bytes | None = None) -> bytes:
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    data = rows if rows is not None else (b"\0" + b"\x10\x20\x30" * width) * height
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + more + chunk(b"IDAT", zlib.compress(data)) + chunk(b"IEND", b"")


def test_the_face_becomes_part_of_the_job_and_of_its_digest(tmp_path: Path) -> None:
    job = in_shop(tmp_path, "liftout: 1\nname: Skerry Fitting Works\naddress: [Boathouse, Skerry]\nlogo: mark.png\n", logo=png())
    shop = job.document.shop
    assert job.document.shop_name == "Skerry Fitting Works"
    assert shop is not None
    assert shop.address == ("Boathouse", "Skerry")
    assert shop.logo is not None
    assert shop.logo.is_png
    assert shop.logo.content_bytes == png()
    assert job.place(("shop", "name")) == "shop.yaml:2"
    other = in_shop(tmp_path, "liftout: 1\nname: Skerry Fitting Works\naddress: [Boathouse, Skerry]\nlogo: mark.png\n", logo=png(4))
    assert job_digest(job) != job_digest(other)


def test_the_job_that_papers_carry_stands_for_itself(tmp_path: Path) -> None:
    job = in_shop(tmp_path, "liftout: 1\nname: Skerry Fitting Works\ntelephone: '0142'\nlogo: mark.png\n", logo=png())
    text = resolved_yaml(job)
    again = carried(text, Path("job.yaml"))
    assert again.document.shop == job.document.shop
    assert resolved_yaml(again) == text


def test_a_job_may_say_single_keys_otherwise_or_give_the_whole_face(tmp_path: Path) -> None:
    shop = "liftout: 1\nname: Skerry Fitting Works\ntelephone: '0142'\n"
    own = in_shop(tmp_path, shop, f"{JOB}shop: {{telephone: '0999'}}\n").document.shop
    assert own is not None
    assert (own.name, own.telephone) == ("Skerry Fitting Works", "0999")
    whole = in_shop(tmp_path, shop, f"{JOB}shop: {{name: Another House}}\n").document.shop
    assert whole is not None
    assert (whole.name, whole.telephone) == ("Another House", None)


def test_a_shop_is_named_once(tmp_path: Path) -> None:
    assert "no shop is named" in faults(tmp_path, None)
    named = JOB.replace("papers: {", "papers: {shop: Another House, ")
    assert in_shop(tmp_path, None, named).document.shop_name == "Another House"
    assert "another name" in faults(tmp_path, "liftout: 1\nname: Skerry Fitting Works\n", named)


@pytest.mark.parametrize(
    ("shop", "said"),
    [
        ("liftout: 1\nname: S\nlogoo: x.svg\n", 'shop.yaml:3:1  shop / logoo\n  no such key.  Did you mean "logo"?'),
        ("name: S\n", "shop.yaml:1:1  \n  is of no version"),
        ("liftout: 1\nname: S\nlogo: ../mark.png\n", 'shop.yaml:3:1  shop / logo\n  "../mark.png": this is no name of a file'),
        ("liftout: 1\nname: S\nlogo: none.svg\n", 'shop.yaml:3:1  shop / logo\n  "none.svg": there is no such file.'),
        ("liftout: 1\nname: S\nlanguage: fr\n", 'shop.yaml:3:1  shop / language\n  "fr" is not known here.'),
        ("liftout: 1\nname: S\nmail: [a, b]\n", "shop.yaml:3:1  shop / mail"),
        ("liftout: 1\nname: S\n  x: [\n", "shop.yaml:3:"),
    ],
)
def test_faults_name_file_line_and_what_would_be_right(tmp_path: Path, shop: str, said: str) -> None:
    assert said in faults(tmp_path, shop, logo=png())


def test_a_logo_behind_a_link_is_not_read(tmp_path: Path) -> None:
    (tmp_path / "there.png").write_bytes(png())
    (tmp_path / "link.png").symlink_to(tmp_path / "there.png")
    assert '"link.png": this is a link.' in faults(tmp_path, "liftout: 1\nname: S\nlogo: link.png\n")


@pytest.mark.parametrize(
    ("inside", "said"),
    [
        ("<script>alert(1)</script>", "script may not stand"),
        ('<path d="M0 0" onload="alert(1)"/>', "onload"),
        ('<image href="file:///etc/passwd"/>', "image may not stand"),
        ('<use href="#a"/>', "use may not stand"),
        ("<foreignObject/>", "foreignObject may not stand"),
        ("<text>Skerry</text>", "Convert lettering into outlines"),
        ('<path fill="url(http://a.example/x)"/>', "fetches nothing"),
        ("<path style=\"fill:url('//a.example')\"/>", "fetches nothing"),
        ('<path style="fill:u\\72l(x)"/>', "fetches nothing"),
        ('<a xmlns="http://www.w3.org/1999/xhtml">x</a>', "a may not stand"),
        ("<g>" * 40 + "</g>" * 40, "more than any logo needs"),
        ("<g/>" * 2100, "more than any logo needs"),
        ("<path>", "not well formed"),
        ("<?xml-stylesheet href='x'?>", "instruction"),
    ],
)
def test_an_svg_holds_shapes_alone(inside: str, said: str) -> None:
    with pytest.raises(QuantityError) as caught:
        plain(SVG.format(inside).encode())
    assert said in f"{caught.value.wrong} {caught.value.right}"


def test_an_svg_has_no_document_type_and_says_its_size() -> None:
    for text, said in (
        ('<!DOCTYPE svg [<!ENTITY a "b">]>' + SVG.format(""), "document type"),
        ('<svg xmlns="http://www.w3.org/2000/svg"/>', "viewBox"),
    ):
        with pytest.raises(QuantityError, match=said):
            plain(text.encode())


def test_what_a_drawing_program_leaves_behind_is_not_carried() -> None:
    told = '<metadata><by xmlns="http://x.example">A. Person</by></metadata><!-- /home/person --><path d="M0 0h1" xmlns:i="http://i.example" i:label="me"/>'
    clean = plain(SVG.format(told).encode())
    assert clean == SVG.format('<path d="M0 0h1"></path>').encode()
    assert plain(clean) == clean
    assert plain(png(more=chunk(b"tEXt", b"Author\0A. Person"))) == png()


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (png()[:-6], "cut or damaged"),
        (png().replace(b"IEND", b"IENE"), "cut or damaged"),
        (png(rows=b"\0" * 3), "cut or damaged"),
        (png(rows=b"\0" * 10_000_000), "cut or damaged"),
        (png(3000, 1), "pixels"),
        (b"GIF89a", "neither SVG nor PNG"),
        (b"\x89PNG\r\n\x1a\n" + b"x" * BYTES_MAX, "longer than"),
    ],
)
def test_a_png_is_whole_and_small(content: bytes, said: str) -> None:
    with pytest.raises(QuantityError) as caught:
        plain(content)
    assert said in caught.value.wrong


def test_a_stranger_s_logo_is_held_to_the_same(tmp_path: Path) -> None:
    text = resolved_yaml(in_shop(tmp_path, "liftout: 1\nname: S\nlogo: mark.png\n", logo=png()))
    mine = base64.b64encode(png()).decode()
    theirs = base64.b64encode(SVG.format("<script/>").encode()).decode()
    with pytest.raises(JobError, match="script may not stand"):
        carried(text.replace(mine, theirs), Path("job.yaml"))
    with pytest.raises(JobError, match="holds more than a picture"):
        carried(text.replace(mine, base64.b64encode(png(more=chunk(b"tEXt", b"a\0b"))).decode()), Path("job.yaml"))
