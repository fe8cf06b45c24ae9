"""Debian's nginx before servers, by the recipe that is shipped, with a certificate made for the run."""

import os
import re
import ssl
import subprocess
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from tests.server.processes import free_port

__all__ = ["RECIPE", "Front", "fronted"]

RECIPE = Path(__file__).resolve().parents[2] / "docs" / "nginx" / "zonelib.conf"
NGINX = "/usr/sbin/nginx"
SUBJECT = "/CN=127.0.0.1"
MAIN = """\
{user}
pid {folder}/nginx.pid;
error_log {folder}/error.log;
events {{ worker_connections 512; }}
http {{
    access_log off;
    client_body_temp_path {folder}/body;
    proxy_temp_path {folder}/proxy;
    fastcgi_temp_path {folder}/fastcgi;
    uwsgi_temp_path {folder}/uwsgi;
    scgi_temp_path {folder}/scgi;
    include {folder}/zonelib.conf;
}}
"""


@dataclass(frozen=True)
class Front:
    """A running nginx: its ports, and what a browser must know to trust it."""

    port: int
    plain: int
    tls: ssl.SSLContext


@contextmanager
def fronted(folder: Path, servers: Sequence[int]) -> Iterator[Front]:
    """Run nginx before the servers on these ports of the loopback."""
    tls = _certificate(folder)
    front = Front(free_port(), free_port(), tls)
    (folder / "zonelib.conf").write_text(_recipe(folder, front, servers), encoding="utf-8")
    user = "" if os.geteuid() else "user root;"
    (folder / "nginx.conf").write_text(MAIN.format(folder=folder, user=user), encoding="utf-8")
    folder.chmod(0o755)
    command = [NGINX, "-p", str(folder), "-c", str(folder / "nginx.conf"), "-g", "daemon off;"]
    with subprocess.Popen(command, stderr=subprocess.PIPE, text=True) as process:
        try:
            _wait(folder / "nginx.pid", process)
            yield front
        finally:
            process.terminate()


def _recipe(folder: Path, front: Front, servers: Sequence[int]) -> str:
    """Return the recipe with the places of this run, and nothing else changed."""
    text = RECIPE.read_text(encoding="utf-8")
    changes = {
        "127.0.0.1:8600": f"127.0.0.1:{servers[0]}",
        "127.0.0.1:8601": f"127.0.0.1:{servers[1]}",
        "listen 80;": f"listen 127.0.0.1:{front.plain};",
        "listen 443 ssl;": f"listen 127.0.0.1:{front.port} ssl;",
        "server_name exercises.college.test;": "server_name 127.0.0.1;",
        "/etc/ssl/certs/exercises.pem": f"{folder}/front.pem",
        "/etc/ssl/private/exercises.key": f"{folder}/front.key",
    }
    for old, new in changes.items():
        assert old in text, f"the recipe has no {old}"
        text = text.replace(old, new)
    assert not re.search(r"/etc/|college\.test", re.sub("#.*", "", text))
    return text


def _certificate(folder: Path) -> ssl.SSLContext:
    key, certificate = folder / "front.key", folder / "front.pem"
    told = ["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "2", "-subj", SUBJECT]
    told += ["-addext", "subjectAltName=IP:127.0.0.1", "-keyout", str(key), "-out", str(certificate)]
    subprocess.run(told, check=True, capture_output=True)
    return ssl.create_default_context(cafile=str(certificate))


def _wait(pid: Path, process: subprocess.Popen[str]) -> None:
    until = time.monotonic() + 20
    while not pid.exists():
        assert process.poll() is None, process.stderr and process.stderr.read()
        assert time.monotonic() < until, "nginx did not start in time"
        time.sleep(0.05)
