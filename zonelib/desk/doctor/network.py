"""Can the browser reach the workbook on this computer."""

import socket
import threading
import urllib.request
import webbrowser
from collections.abc import Mapping
from http.server import BaseHTTPRequestHandler, HTTPServer

from zonelib.desk.doctor.sign import Computer, Sign

__all__ = ["browser", "port", "proxy", "reached"]

FIRST, COUNT = 8888, 50
HERE = "127.0.0.1"
PROXIES = ("http_proxy", "HTTP_PROXY", "all_proxy", "ALL_PROXY")
EXEMPT = ("no_proxy", "NO_PROXY")
SECONDS = 5.0


def port(_: Computer) -> Sign:
    """Look for a port that the workbook can listen on."""
    for number in range(FIRST, FIRST + COUNT):
        with socket.socket() as probe:
            try:
                probe.bind((HERE, number))
            except OSError:
                continue
            return Sign("Port", f"{number} is free")
    told = f"none from {FIRST} to {FIRST + COUNT - 1} is free"
    return Sign("Port", told, "Close other notebooks, or name a port: python -m zonelib open --port 9500")


def proxy(computer: Computer) -> Sign:
    """Look whether a proxy stands between the browser and this computer itself."""
    used = next((computer.settings[name] for name in PROXIES if computer.settings.get(name)), "")
    if not used:
        return Sign("Proxy", "none is set for programs")
    if HERE in _exempt(computer.settings):
        return Sign("Proxy", f"{HERE} is exempt")
    set_it = "set" if computer.system == "Windows" else "export"
    remedy = f"Run: {set_it} NO_PROXY={HERE},localhost. Exempt {HERE} in the browser's settings too."
    return Sign("Proxy", f"one is set, and {HERE} is not exempt", remedy)


def _exempt(settings: Mapping[str, str]) -> list[str]:
    listed = ",".join(settings.get(name, "") for name in EXEMPT)
    return [HERE if one.strip() == "*" else one.strip() for one in listed.split(",")]


class _Answer(BaseHTTPRequestHandler):
    def do_GET(self) -> None:
        self.send_response(200)
        self.end_headers()
        self.wfile.write(b"here")

    def log_message(self, *told: object) -> None:
        """Print nothing: what was read is not of interest."""
        del told


def reached(_: Computer) -> Sign:
    """Look whether a page of this computer can be read on this computer."""
    with HTTPServer((HERE, 0), _Answer) as server:
        threading.Thread(target=server.handle_request, daemon=True).start()
        server.timeout = SECONDS
        address = f"http://{HERE}:{server.server_address[1]}/"
        opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
        try:
            with opener.open(address, timeout=SECONDS) as page:
                well = page.read() == b"here"
        except OSError:
            well = False
    if well:
        return Sign("Connection", f"pages at {HERE} can be read")
    return Sign(
        "Connection", f"pages at {HERE} cannot be read", "Ask who looks after the computer to allow them."
    )


def browser(computer: Computer) -> Sign:
    """Look for a browser."""
    try:
        webbrowser.get()
    except webbrowser.Error:
        remedy = (
            "Run: python -m zonelib open --no-browser. Then type the address it prints into your browser."
        )
        return Sign("Browser", "none can be opened from here", remedy)
    del computer
    return Sign("Browser", "one can be opened")
