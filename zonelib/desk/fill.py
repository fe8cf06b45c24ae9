"""Make what was handed in without a notebook visible to nbgrader, which looks for notebooks only."""

import shutil
from collections.abc import Iterator
from pathlib import Path

from zonelib.desk.groups import submitted_root
from zonelib.desk.walk import folders_in

__all__ = ["fill_notebooks"]


def fill_notebooks(folder: Path) -> list[Path]:
    """Copy the released notebooks to submissions that lack them; nothing that is there is changed.

    Parameters
    ----------
    folder : Path
        The course, or its ``submitted`` tree.

    Returns
    -------
    list of Path
        The notebooks put in.
    """
    root = submitted_root(folder)
    released = root.resolve().parent / "exercises"
    return [copy for trainee in folders_in(root) for copy in _fill(trainee, released)]


def _fill(trainee: Path, released: Path) -> Iterator[Path]:
    for home in folders_in(trainee):
        for notebook in sorted((released / home.name).glob("*.ipynb")):
            copy = home / notebook.name
            if not copy.exists() and not copy.is_symlink():
                shutil.copyfile(notebook, copy)
                yield copy
