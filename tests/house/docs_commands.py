"""Write docs/commands.md from what each command's own help says: `python -m tests.house.docs_commands`."""

from collections.abc import Iterator

import click

from tests.house.files import ROOT
from zonelib.cli import group

PAGE = ROOT / "docs" / "commands.md"
WIDTH = 100
HEAD = """# Commands

This page is made by `python -m tests.house.docs_commands`, from each command's own help.
A test fails while it is older.

`python -m zonelib` does the same as `zonelib`, also where programs in your own folders are blocked.
A command ends with 0 if all is well.
It ends with 1 if something was found, and with 2 if a file could not be used.
"""


def commands(one: click.Command, words: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], click.Command]]:
    """Yield a command with its words, then those within it."""
    yield words, one
    if isinstance(one, click.Group):
        context = click.Context(one)
        for name in one.list_commands(context):
            if inner := one.get_command(context, name):
                yield from commands(inner, (*words, name))


def section(words: tuple[str, ...], one: click.Command) -> str:
    """Return a command's heading and help."""
    context = click.Context(one, info_name=" ".join(words), terminal_width=WIDTH, max_content_width=WIDTH)
    return f"\n## {' '.join(words)}\n\n```text\n{one.get_help(context)}\n```\n"


def page() -> str:
    """Return the whole page."""
    return HEAD + "".join(section(words, one) for words, one in commands(group, ("zonelib",)))


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8", newline="\n")
