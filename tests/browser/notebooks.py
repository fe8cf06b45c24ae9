"""Notebooks as files: made for a test, and read after JupyterLab has saved them."""

import json
from pathlib import Path
from typing import Any

__all__ = ["notebook", "saved_outputs"]

EMPTY = {
    "nbformat": 4,
    "nbformat_minor": 5,
    "metadata": {"kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"}},
}


def notebook(*sources: str) -> dict[str, Any]:
    """Return a notebook with code cells."""
    return {**EMPTY, "cells": [_cell(source, at) for at, source in enumerate(sources)]}


def _cell(source: str, at: int) -> dict[str, Any]:
    parts: dict[str, Any] = {"cell_type": "code", "id": f"c{at}", "execution_count": None, "metadata": {}}
    return {**parts, "source": source, "outputs": []}


def saved_outputs(path: Path) -> list[dict[str, Any]]:
    """Return the data of all outputs of the first cell of a saved notebook."""
    cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
    return [output["data"] for output in cells[0]["outputs"] if "data" in output]
