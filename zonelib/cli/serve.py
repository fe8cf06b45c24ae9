"""``zonelib serve``: exercises and quizzes on any device with a browser."""

import asyncio
import logging
import signal
import socket
import sys
from collections.abc import Coroutine, Iterator
from pathlib import Path
from typing import Any

import click

__all__ = ["command"]

LOCAL = ("127.0.0.1", "localhost", "::1")


@click.command("serve")
@click.argument("course", default=".", type=click.Path(exists=True, file_okay=False, path_type=Path))
@click.option("--host", default="127.0.0.1", show_default=True, help="0.0.0.0 lets the whole network in.")
@click.option("--port", default=8600, show_default=True, type=click.IntRange(0, 65535))
@click.option("--database", metavar="PATH|URL", help="A file, or postgresql://…; by default in COURSE.")
@click.option(
    "--behind-proxy", is_flag=True, help="Believe X-Forwarded-For and -Proto: only behind a proxy of yours."
)
def command(course: Path, *, host: str, port: int, database: str | None, behind_proxy: bool) -> None:
    """Serve practice, homework and quizzes of COURSE until Ctrl and C are pressed.

    Quizzes are made with `zonelib quiz new`. Several servers may share one PostgreSQL database.
    """
    from zonelib.desk.server.starting import start_server

    logging.basicConfig(format="%(message)s", level=logging.WARNING)
    server = start_server(course, database)

    def ready(bound: int) -> None:
        for line in (*_addresses(host, bound), *_plainly(host, behind_proxy), *server.told()):
            click.echo(line)

    try:
        asyncio.run(_until_stopped(server.serve(host=host, port=port, proxied=behind_proxy, ready=ready)))
    except OSError as error:
        raise click.ClickException(
            f"Port {port} on {host} cannot be used: {error.strerror}. Try --port."
        ) from error
    click.echo("Stopped. What was saved is kept; start again and everyone goes on.")


async def _until_stopped(serving: Coroutine[Any, Any, None]) -> None:
    task = asyncio.ensure_future(serving)
    loop = asyncio.get_running_loop()
    for name in (signal.SIGINT, signal.SIGTERM):
        if sys.platform == "win32":  # its loops take no handlers
            signal.signal(name, lambda *_: loop.call_soon_threadsafe(task.cancel))
        else:
            loop.add_signal_handler(name, task.cancel)
    try:
        await task
    except asyncio.CancelledError:
        return


def _addresses(host: str, port: int) -> Iterator[str]:
    yield f"Candidates: http://{_named(host)}:{port}/"
    yield f"Invigilator: http://{_named(host)}:{port}/desk"


def _named(host: str) -> str:
    """Return an address that another machine can type, as far as this one knows it."""
    if host not in ("0.0.0.0", "::", ""):  # noqa: S104  compared with, not bound to
        return f"[{host}]" if ":" in host else host
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # sends nothing: it only asks which address would be used
            return str(probe.getsockname()[0])
        except OSError:
            return socket.gethostname()


def _plainly(host: str, behind_proxy: bool) -> Iterator[str]:  # noqa: FBT001
    if behind_proxy:
        yield "Behind a proxy: its headers are believed. Nobody else may reach this port."
    elif host in LOCAL:
        yield "Only this machine can reach it. For a room: --host 0.0.0.0, or a proxy (docs/server.md)."
    else:
        yield "Plain HTTP: anyone on this network can read along, codes and answers too."
        yield "Use a network that only the room is on, or HTTPS by a proxy: docs/server.md has the recipe."
