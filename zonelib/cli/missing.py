"""What is told where a command needs a package that is not installed."""

import click

__all__ = ["stand_in", "told"]

PARTS = {
    "nbgrader": "nbgrader", "psycopg": "postgresql", "distributed": "cluster", "dask": "cluster",
    "jupyterhub": "hub",
}  # fmt: skip
"""In which part of zonelib a package comes along; all others come with the workbook."""


def told(error: ModuleNotFoundError) -> str:
    """Return what is missing and how to get it.

    Raises
    ------
    ModuleNotFoundError
        Where it is one of our own: that is a fault of zonelib.
    """
    name = (error.name or "").partition(".")[0]
    if name in ("", "zonelib"):
        raise error
    part = PARTS.get(name, "workbook")
    return (
        f"This needs the package {name}, which is not installed here.\n"
        f'To get it: python -m pip install "zonelib[{part}]"'
    )


def stand_in(name: str, error: ModuleNotFoundError) -> click.Command:
    """Return a command that tells what is missing, whatever it is given."""
    words = told(error)

    def tell(rest: tuple[str, ...]) -> None:
        del rest
        raise error

    return click.Command(
        name,
        callback=tell,
        params=[click.Argument(["rest"], nargs=-1, type=click.UNPROCESSED)],
        context_settings={"ignore_unknown_options": True},
        help=words,
        short_help=f"(needs {error.name}, which is not installed)",
    )
