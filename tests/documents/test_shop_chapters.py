"""Chapters in a shop's own words: rendered where they can do no harm, held to what the shipped chapters must say."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

import pytest

from liftout.assessment import Assessment, assess
from liftout.documents import DocumentError, docket, templating
from liftout.documents.blocks import Alert, Block, Paragraph, Steps, Text, plain
from liftout.documents.chapters.matter import Matter
from liftout.documents.kept_warnings import faults
from liftout.documents.shop_chapters import Asked, digest, written
from liftout.identity.digests import digests
from liftout.identity.resolved import resolved_yaml
from liftout.job import carried, load
from liftout.resources import folder
from tests.documents.test_handbook_examples import typed
from tests.records import on_disk

NAME = "manual/placards.md.j2"
VALUES: dict[str, Any] = {"name": "W1 <b>*x*</b>", "many": list(range(200)), "pairs": [("a", "b")], "item": {"name": "cooler", "items": "own"}}
CAUTIONS = """{% from "shared/alerts.md.j2" import warning, caution, note %}
## Work

{{ warning("Keep hands off the fan.") }}
1. Open the panel.
2. Part the coupling.

{{ caution("Catch what drips.") }}
3. Drain the loop.
"""


def shipped(text: str = CAUTIONS, **values: Any) -> tuple[Block, ...]:
    return made(text, (), **values)


def made(text: str, standard: tuple[Block, ...] = (), **values: Any) -> tuple[Block, ...]:
    return written([Asked(NAME, text, VALUES | values, standard)], seconds=3, most_bytes=400 * 2**20)[0]


def refused(text: str, standard: tuple[Block, ...] = ()) -> str:
    with pytest.raises(DocumentError) as caught:
        made(text, standard)
    message = str(caught.value)
    assert NAME in message
    assert "Traceback" not in message
    return message


# --- what it can do ----------------------------------------------------------------------------------------------


def test_values_print_as_typed_and_text_is_never_markup() -> None:
    assert made("{{ name }} {{ item.name }} {{ item.items }}") == (Paragraph((Text("W1 <b>*x*</b> cooler own"),)),)


def test_a_chapter_may_take_in_the_shipped_one_and_the_shared_words() -> None:
    blocks = made('In our words.\n\n{% include "shipped/shared/checklist_cautions.md.j2" %}\n')
    assert blocks[0] == Paragraph((Text("In our words."),))
    assert blocks[1:] == templating.chapter("shared/checklist_cautions.md.j2")


def test_every_shipped_chapter_comes_out_alike_where_a_shop_s_own_would() -> None:
    """The plain data hold all that chapters print: each shipped template gives the same blocks in the closed room."""
    matter = Matter(*_assessed(folder("jobs") / "halden_4_survey" / "job.yaml"))
    asked = []
    for plan in docket.PLANS[:3] + docket.PLANS[4:]:
        for key in plan.chapters:
            if key != docket.ANNEXES:
                name = docket.template_of(plan.key, key)
                text = (folder("templates") / name).read_text(encoding="utf-8")
                values = docket.values_of(key, matter)
                asked.append(Asked(name, text, values, templating.chapter(name, **values)))
    for one, blocks in zip(asked, written(asked, seconds=60), strict=True):
        assert repr(blocks) == repr(one.shipped), one.template


def _assessed(file: Path) -> tuple[Assessment, Any]:
    assessment = assess(load(file), remedies=False)
    return assessment, digests(assessment)


# --- what it cannot do ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("{{ name.__class__ }}", "cannot be reached"),
        ("{{ item.__class__.__mro__ }}", "cannot be reached"),
        ("{{ name['__class__'] }}", "cannot be reached"),
        ("{{ many|map(attribute='__class__')|list }}", "cannot be reached"),
        ("{{ name.format }}", "cannot be reached"),
        ("{{ '{0.__class__}'.format(name) }}", "cannot be reached"),
        ("{{ figure.__globals__ }}", "cannot be reached"),
        ("{{ fields.__self__ }}", "cannot be reached"),
        ("{% for a in many %}{{ loop.__init__ }}{% endfor %}", "cannot be reached"),
        ("{{ self.__init__ }}", "cannot be reached"),
        ("{{ caller }}", "undefined"),
        ("{{ config }}", "undefined"),
        ("{{ range(9) }}", "undefined"),
        ("{{ lipsum() }}", "undefined"),
        ("{% import 'os' as os %}", "os"),
        ('{% include "../../pyproject.toml" %}', "pyproject"),
        ('{% include "/etc/passwd" %}', "passwd"),
        ('{% include "print/docket.typ" %}', "docket.typ"),
        ("{{ name|attr('__class__') }}", "No filter named"),
        ("{{ name|tojson }}", "No filter named"),
        ("{{ 'a' * 9 }}", "computes nothing"),
        ("{{ 9 ** 9 }}", "computes nothing"),
        ("{{ 'a' ~ 'b' }}", "joins no strings"),
        ("{{ item }}", "no printed form"),
        ("{{ many }}", "no printed form"),
        ("{% if %}", "Expected an expression"),
        ("{{ fields(5) }}", "something else than the shipped chapter"),
        ('{{ figure({"#": 99}) }}', "something else than the shipped chapter"),
        ('{{ working({"#": 0}) }}', "kind|something else"),
        ("<script>alert(1)</script>", "HTML is not in the closed set"),
        ("a <b>b</b>", "HTML is not in the closed set"),
        ("<!-- hidden -->", "HTML is not in the closed set"),
        ("![x](http://a.example/x.png)", "an image"),
        ("[x](https://a.example)", "a link"),
        ("```raw\n#panic()\n```", "a fence"),
        ("```figure\n7\n```", "nothing of kind figure"),
        ("> quoted", "a block quote"),
    ],
)
def test_an_attack_is_refused_in_words(text: str, said: str) -> None:
    message = refused(text)
    assert any(part in message for part in said.split("|")), message


def test_typesetter_source_is_text() -> None:
    assert made('#panic("x") #import "a.typ": b') == (Paragraph((Text('#panic("x") #import "a.typ": b'),)),)


def test_an_endless_loop_is_stopped() -> None:
    loops = "".join(f"{{% for a{number} in many %}}" for number in range(9))
    start = time.process_time()
    assert "3 s of processor time" in refused(loops + "{% endfor %}" * 9)
    assert time.process_time() - start < 3  # the time was another process's


def test_a_memory_bomb_is_stopped() -> None:
    doubled = "".join(f"{{% set a{number + 1} = [a{number}, a{number}]|map('list')|list %}}" for number in range(40))
    text = "{% set a0 = many %}" + doubled + "{% for x in a40 %}{{ x }}{% endfor %}"
    assert any(word in refused(text) for word in ("memory", "processor time", "no printed form"))
    kept = "{% macro m(x) %}{% set y %}{{ x }}{{ x }}{% endset %}{{ m(y) }}{% endmacro %}{{ m(name) }}"
    assert any(word in refused(kept) for word in ("memory", "without an end", "processor time"))


def test_a_call_without_an_end_and_an_output_without_measure_are_stopped() -> None:
    assert "without an end" in refused("{% macro m() %}{{ m() }}{% endmacro %}{{ m() }}")
    huge = "{% for a in many %}{% for b in many %}{% for c in many %}word {% endfor %}{% endfor %}{% endfor %}"
    assert "prints more than any chapter needs" in refused(huge)


def test_the_process_opens_nothing_and_knows_nothing(tmp_path: Path) -> None:
    """What would happen if a template got out of the engine: no file, no module, no process, no socket, no environment."""
    import subprocess
    import sys

    from liftout.documents.shop_chapters import PROGRAM

    secret = tmp_path / "secret"
    secret.write_text("told")
    for attempt in (
        f"open({str(secret)!r}).read()",
        "__import__('wave')",
        "__import__('os').system('true')",
        "__import__('os').fork()",
        "__import__('os').listdir('/')",
        "__import__('socket').socket()",
    ):
        tried = f"""
import runpy, sys
room = runpy.run_path({str(PROGRAM)!r})
import os, socket
room["_lock"](3, 2**29)
try:
    {attempt}
except (OSError, ImportError) as error:
    os.write(1, b"refused")
"""
        done = subprocess.run([sys.executable, "-I", "-c", tried], capture_output=True, env={}, check=False, timeout=60)
        assert done.stdout == b"refused", (attempt, done)


# --- what it may not leave out ----------------------------------------------------------------------------------


def test_the_same_words_in_another_chapter_are_enough() -> None:
    own = CAUTIONS.replace("## Work", "## How we do it\n\nTwo persons.\n")
    assert any(isinstance(block, Alert) for block in made(own, shipped()))


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('{{ warning("Keep hands off the fan.") }}', "", 'leaves out the WARNING "Keep hands off the fan."'),
        ('{{ warning("Keep hands off the fan.") }}', "{# Keep hands off the fan. #}", "leaves out the WARNING"),
        ('{{ warning("Keep hands off the fan.") }}', "<!-- Keep hands off the fan. -->", "HTML is not"),
        ('{{ warning("Keep hands off the fan.") }}', "{% if false %}{{ warning('Keep hands off the fan.') }}{% endif %}", "leaves out the WARNING"),
        ('warning("Keep hands off the fan.")', 'note("Keep hands off the fan.")', "leaves out the WARNING"),
        ('warning("Keep hands off the fan.")', 'caution("Keep hands off the fan.")', "leaves out the WARNING"),
        ('warning("Keep hands off the fan.")', 'warning("Mind the fan.")', "leaves out the WARNING"),
        ("{{ warning(", "{% set kept %}{{ warning('x') }}{% endset %}{{ caution(", "leaves out the WARNING"),
        ("Keep hands off the fan.", "Keep hands off the *fan*, or not.", "leaves out the WARNING"),
    ],
)
def test_a_warning_that_is_dropped_hidden_or_reworded_is_refused(old: str, new: str, said: str) -> None:
    message = refused(CAUTIONS.replace(old, new), shipped())
    assert said in message


def test_a_caution_stands_right_before_its_step() -> None:
    moved = CAUTIONS.replace('{{ caution("Catch what drips.") }}\n3. Drain the loop.\n', '3. Drain the loop.\n\n{{ caution("Catch what drips.") }}\n')
    assert 'has the CAUTION "Catch what drips." elsewhere than right before its step "Drain the loop."' in refused(moved, shipped())
    early = CAUTIONS.replace('{{ caution("Catch what drips.") }}\n', "").replace("1. Open", '{{ caution("Catch what drips.") }}\n1. Open')
    assert "elsewhere than right before its step" in refused(early, shipped())
    swapped = CAUTIONS.replace("1. Open the panel.\n2. Part the coupling.", "1. Part the coupling.\n2. Open the panel.")
    assert 'elsewhere than right before its step "Open the panel."' in refused(swapped, shipped())


def test_a_step_cannot_be_done_before_its_warning() -> None:
    ahead = CAUTIONS.replace("## Work\n", "## Work\n\n1. Part the coupling.\n").replace("2. Part the coupling.\n", "2. Go on.\n")
    assert 'after the step "Part the coupling.", which it stands before' in refused(ahead, shipped())


def test_everything_missing_is_named_at_once() -> None:
    message = refused("Nothing.", shipped())
    assert message.count("leaves out") == 2


def test_lines_worksheets_and_signatures_stay_too() -> None:
    matter = Matter(*_assessed(folder("jobs") / "halden_4_survey" / "job.yaml"))
    for place in (("checklist", "closing"), ("amendment", "signing"), ("calculations", "findings-balance")):
        blocks = templating.chapter(docket.template_of(*place), **docket.values_of(place[1], matter))
        assert faults(blocks, blocks) == []
        without = [block for block in blocks if isinstance(block, Paragraph | Steps)]
        assert faults(blocks, without), place


# --- in a docket ------------------------------------------------------------------------------------------------


def test_a_docket_has_the_chapter_names_it_on_page_one_and_follows_from_its_own_job(tmp_path: Path) -> None:
    on_disk.put(tmp_path / "jobs")
    file = tmp_path / "jobs" / "halden_4_survey" / "job.yaml"
    name, text = typed("shop_chapters")
    assert name == "templates/manual/before.md.j2"
    (tmp_path / "jobs" / "templates" / "manual").mkdir(parents=True)
    (tmp_path / "jobs" / "templates" / "manual" / "before.md.j2").write_text(text, encoding="utf-8", newline="\r\n")
    job = load(file)
    assessment = assess(job, remedies=False)
    manual = docket.document(assessment, digests(assessment), "manual")
    chapter = next(chapter for chapter in manual.chapters if chapter.key == "before")
    assert Paragraph((Text("Tell the office before the battery is disconnected."),)) in chapter.blocks
    told = [plain(cell) for block in manual.front for row in getattr(block, "rows", ()) for cell in row]
    assert ["templates/manual/before.md.j2", digest(text)[:12]] == [
        word for word in told if word in ("templates/manual/before.md.j2", digest(text)[:12])
    ]
    again = assess(carried(resolved_yaml(job), Path("job.yaml")), remedies=False)
    assert digests(again).job == digests(assessment).job
    assert next(c for c in docket.document(again, digests(again), "manual").chapters if c.key == "before").blocks == chapter.blocks


@pytest.mark.long
def test_a_shop_s_own_chapter_may_be_in_the_shop_s_language(tmp_path: Path) -> None:
    """Its warnings count in the language of the papers or in English; its other words stay as they are, without a mark."""
    on_disk.put(tmp_path / "jobs")
    file = tmp_path / "jobs" / "halden_4_survey" / "job.yaml"
    (tmp_path / "jobs" / "shop.yaml").write_text("liftout: 1\nname: Skerry Fitting Works\nlanguage: de\n")
    (tmp_path / "jobs" / "templates" / "checklist").mkdir(parents=True)
    own = tmp_path / "jobs" / "templates" / "checklist" / "closing.md.j2"
    english = "Do not let a panel close before its hold points are initialled. What is wrong behind it may jam a control in flight."
    german = (
        "Lassen Sie keine Klappe schließen, bevor ihre Haltepunkte abgezeichnet sind. Ein Fehler dahinter kann im Flug eine Steuerung blockieren."
    )
    both = (folder("templates") / "checklist" / "closing.md.j2").read_text(encoding="utf-8").replace(english, german)
    assert german in both
    for text in ("{% include 'shipped/checklist/closing.md.j2' %}", both):
        own.write_text(f"{text}\n\nFragen Sie im Büro.\n", encoding="utf-8")
        assessment = assess(load(file), remedies=False)
        chapter = next(one for one in docket.document(assessment, digests(assessment), "checklist").chapters if one.key == "closing")
        assert isinstance(chapter.blocks[0], Alert)
        assert plain(chapter.blocks[0].of[0].of) == german  # type: ignore[union-attr]
        assert Paragraph((Text("Fragen Sie im Büro."),)) in chapter.blocks
    own.write_text(both.replace("keine Klappe", "eine Klappe"), encoding="utf-8")
    assessment = assess(load(file), remedies=False)
    with pytest.raises(DocumentError, match='leaves out the WARNING "Lassen Sie keine'):
        docket.document(assessment, digests(assessment), "checklist")
    own.write_text(both.replace("{{ checklist(part.rows) }}", "{{ checklist(part.rows) }}\n\n{{ checklist(part.rows) }}"), encoding="utf-8")
    assessment = assess(load(file), remedies=False)
    with pytest.raises(DocumentError, match="adds the line of the checklist"):
        docket.document(assessment, digests(assessment), "checklist")


def test_a_template_for_no_chapter_is_refused(tmp_path: Path) -> None:
    on_disk.put(tmp_path / "jobs")
    (tmp_path / "jobs" / "templates" / "manual").mkdir(parents=True)
    (tmp_path / "jobs" / "templates" / "manual" / "befor.md.j2").write_text("x", encoding="utf-8")
    assessment = assess(load(tmp_path / "jobs" / "halden_4_survey" / "job.yaml"), remedies=False)
    with pytest.raises(DocumentError, match=r'manual/befor\.md\.j2: no chapter has this template\. Did you mean "manual/before\.md\.j2"'):
        docket.documents(assessment, digests(assessment))
