"""The environment that the theme's templates are rendered in: made once, and listed without its icons.

The site builder makes it anew for each site, compiles the same 33 templates, and lists the 14,000 files of the theme to find the 30 that are
copied; nearly all of them are icons, which a docket has none of. A process that issues many dockets does all that once.
"""

from __future__ import annotations

import os
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from jinja2 import Environment

ICONS = ".icons"


@cache
def theme_environment(folders: tuple[str, ...]) -> Environment:
    """The environment of a theme.

    Args:
        folders: that templates are looked for in, the first that has one first.
    """
    from jinja2 import Environment, FileSystemLoader
    from mkdocs import localization
    from mkdocs.utils import templates

    class WithoutIcons(FileSystemLoader):
        def list_templates(self) -> list[str]:
            found = {file.relative_to(place).as_posix() for place in map(Path, self.searchpath) for file in _files(place)}
            return sorted(found)

    environment = Environment(loader=WithoutIcons(folders), auto_reload=False)  # noqa: S701 - as the site builder does; its templates escape themselves
    environment.filters["url"] = templates.url_filter
    environment.filters["script_tag"] = templates.script_tag_filter
    localization.install_translations(environment, localization.parse_locale("en"), folders)  # other words are files of the theme, by its `language`
    return environment


def _files(place: Path) -> list[Path]:
    found: list[Path] = []
    for folder, inside, names in os.walk(place):
        if ICONS in inside:
            inside.remove(ICONS)
        found += [Path(folder) / name for name in names]
    return found
