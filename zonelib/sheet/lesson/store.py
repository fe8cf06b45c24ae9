"""Run lessons from top to bottom and store what they show, so that they read well where no kernel runs.

``python -m zonelib.sheet.lesson.store lessons/[0-9]*.ipynb`` does it, after any change to a lesson, the
engine or the words. Each is run in a copy of its folder, without anyone's answers.
"""

import shutil
import sys
from base64 import b64decode, b64encode
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import nbformat

__all__ = ["stored"]

COLOURS = 48
"""Our look has a dozen colours and their edges: so few keep a picture small."""

WIDGET = "application/vnd.jupyter.widget-view+json"
LEFT_OUT = ("answers", ".ipynb_checkpoints")


def stored(path: Path) -> Any:
    """Return a notebook run anew, its outputs fit to be kept: no widget, no state, small pictures.

    Raises
    ------
    RuntimeError
        If a cell ends in an error.
    """
    from nbclient import NotebookClient

    notebook: Any = nbformat.read(path, as_version=4)  # type: ignore[no-untyped-call]  # nbformat is untyped
    with TemporaryDirectory() as folder:
        copy = Path(folder) / path.parent.name
        shutil.copytree(path.parent, copy, ignore=shutil.ignore_patterns(*LEFT_OUT))
        NotebookClient(notebook, kernel_name="python3", resources={"metadata": {"path": str(copy)}}).execute()
    notebook.metadata.pop("widgets", None)
    notebook.metadata.language_info = {"name": "python"}
    for cell in notebook.cells:
        cell.metadata.pop("execution", None)
        if cell.cell_type == "code":
            cell.outputs = [_kept(output, path) for output in cell.outputs if not _is_widget(output)]
    return notebook


def _is_widget(output: Any) -> bool:
    return WIDGET in output.get("data", {})


def _kept(output: Any, path: Path) -> Any:
    if output.output_type != "display_data":
        raise RuntimeError(f"{path.name}: a cell shows {output.output_type}: {str(output)[:200]}")
    if "image/png" in output.data:
        output.data["image/png"] = _smaller(output.data["image/png"])
    return output


def _smaller(picture: str) -> str:
    """Return a PNG with few colours, and without what its maker wrote into it."""
    from PIL import Image

    full, small = Image.open(BytesIO(b64decode(picture))), BytesIO()
    full.convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE).save(small, "PNG", optimize=True)
    return b64encode(small.getvalue()).decode()


def main(names: list[str]) -> None:
    """Store every notebook named."""
    for name in names:
        path = Path(name)
        nbformat.write(stored(path), path)  # type: ignore[no-untyped-call]  # nbformat is untyped


if __name__ == "__main__":
    main(sys.argv[1:])
