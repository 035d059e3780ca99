"""The page of one part, written out. Every text of the job goes through the escaping of the template; nothing is put together by hand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Final, NamedTuple

from liftout.desk.bench import Helped, Seen, concerns, moved
from liftout.desk.entries import SAME, Told
from liftout.desk.parts import MERELY, Below, NoSuchPart, Path_, Shown, ground_keys, shape, shown, walked
from liftout.documents.svg import check_svg, inline

if TYPE_CHECKING:
    from jinja2 import Template

RESTS: Final = (
    ("", "as it stands"),
    (SAME, "the same, looked at again for the new value"),
    ("measured", "measured"),
    ("document", "a document"),
    ("nameplate", "a nameplate"),
    (MERELY, "nothing: merely stated"),
)


class Branch(NamedTuple):
    """A part in the tree of parts."""

    path: Path_
    said: bool
    open: int
    below: tuple[Branch, ...]


@cache
def _template(name: str) -> Template:
    from jinja2 import DictLoader, Environment, StrictUndefined

    texts = {name: files("liftout.desk").joinpath(f"{name}.html.j2").read_text(encoding="utf-8") for name in ("page", "helps")}
    house = Environment(loader=DictLoader(texts), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
    return house.get_template(name)


def page(
    seen: Seen,
    file: str,
    path: Path_,
    *,
    before: Seen | None = None,
    news: str = "",
    typed: Mapping[str, str] | None = None,
    wrong: Sequence[Told] = (),
    stale: bool = False,
    helped: Helped | None = None,
) -> str:
    """The page of a part.

    Args:
        seen: the job as it stands.
        file: name of the job file.
        path: of the part.
        before: the job before the last entry, where that is to be told.
        news: what has just happened, in one sentence.
        typed: what a person typed that was not entered.
        wrong: why it was not.
        stale: whether it was typed on a page that an edit elsewhere has overtaken.
        helped: what would help a finding, where that was asked.

    Raises:
        NoSuchPart: when no job has a part there.
    """
    from markupsafe import Markup

    told = {"seen": seen, "file": file, "heading": file, "news": news, "first_wrong": ""}
    if seen.job is None or seen.own is None or seen.assessment is None:
        return _template("page").render(told | {"lost": _lost(typed or {})})
    part = shown(seen.job, seen.own, path)
    papers, plane = seen.job.document.papers, seen.assessment.facts.aircraft
    beside, elsewhere = _sorted_out(part, wrong)
    svg, caption = seen.side_view
    if fault := check_svg(svg):
        raise ValueError(fault)
    concerned = [finding for finding, keys in seen.about if path and concerns(keys, path)]
    near = {finding.key for finding in concerned}
    inner = shape(part.shape.inner) if part.shape.kind == "group" else None
    return _template("page").render(
        told
        | {
            "heading": f"{papers.number} revision {papers.revision}: {plane.model} {plane.registration}".rstrip(),
            "part": part,
            "way": [path[: length + 1] for length in range(len(path))],
            "new_value": inner is not None and not inner.has_page,
            "new_part": inner is not None and inner.has_page,
            "typed": typed or {},
            "wrong": beside,
            "first_wrong": next((field.name for field in part.fields if field.name in beside), ""),
            "wrong_elsewhere": elsewhere,
            "stale": stale,
            "helped": helped,
            "ways": ways(helped) if helped is not None else [],
            "rests": lambda key: RESTS if key else [one for one in RESTS if one[0] not in (SAME, MERELY)],
            "grounds": ground_keys(),
            "counts": seen.assessment.counts,
            "open_count": len(seen.assessment.open),
            "changed": moved(before, seen) if before is not None else [],
            "concerned": concerned,
            "others": [finding for finding in seen.assessment.findings if finding.open and finding.key not in near],
            # check_svg has seen that it holds nothing but a drawing, and its writer escapes what it letters.
            "drawing": Markup(inline(svg, "side")),  # noqa: S704
            "caption": caption,
            "parts": _branches(seen, (), path),
        }
    )


def _lost(typed: Mapping[str, str]) -> list[tuple[str, str]]:
    """What was typed while the file cannot be read, by its key: it would be gone with the form."""
    named = ((key.rpartition(":")[2] or key, text) for key, text in typed.items() if key.startswith(("value:", "new ")))
    return [(key, text) for key, text in named if text.strip()]


def help_shown(helped: Helped) -> str:
    """What would help a finding, as it stands below it on a page."""
    return str(_template("helps").module.help_of(helped, ways(helped)))  # type: ignore[attr-defined]


def ways(helped: Helped) -> list[tuple[str, list[Path_]]]:
    """What would help a finding, each change with the parts of the job in which it is made."""
    return [(remedy.sentence, list(dict.fromkeys(_part_of(path) for path, _ in remedy.changes))) for remedy in helped.remedies]


def _part_of(path: Path_) -> Path_:
    """The nearest part round a key that has a page."""
    for length in range(len(path), 0, -1):
        try:
            if walked(path[:length])[0].has_page:
                return path[:length]
        except NoSuchPart:
            continue
    return ()


def _sorted_out(part: Shown, wrong: Sequence[Told]) -> tuple[dict[str, list[Told]], list[Told]]:
    """What is wrong by the key that it stands beside, and the rest with its way written out."""
    beside: dict[str, list[Told]] = {}
    elsewhere = []
    for one in wrong:
        field = next((field for field in part.fields if one.path[: len(field.path)] == field.path), None)
        further = one.path[len(part.path) + 1 :] if field is not None else ()
        words = " / ".join(one.path if field is None else further)
        said = one._replace(wrong=f"{words}: {one.wrong}" if words and further != ("value",) else one.wrong)
        if field is None:
            elsewhere.append(said)
        else:
            beside.setdefault(field.name, []).append(said)
    return beside, elsewhere


def _branches(seen: Seen, path: Path_, towards: Path_) -> tuple[Branch, ...]:
    """The parts below a path; those on the way to the shown one with what is below them."""
    assert seen.job is not None
    assert seen.own is not None
    return tuple(
        Branch(
            one.path,
            one.said,
            _open(seen, one),
            _branches(seen, one.path, towards) if one.path == towards[: len(one.path)] else (),
        )
        for one in shown(seen.job, seen.own, path).below
    )


def _open(seen: Seen, part: Below) -> int:
    return sum(finding.open and concerns(keys, part.path) for finding, keys in seen.about)
