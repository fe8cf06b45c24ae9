"""One person at a hub: signs in, starts a server, works in it as a browser does."""

import json
import time
from typing import Any
from uuid import uuid4

import httpx
from websocket import WebSocket, create_connection

from tests.hub.hub import LONGEST, PASSWORD, Hub, wait_for


class Person:
    """A person with a name, who works at a hub."""

    def __init__(self, hub: Hub, name: str) -> None:
        self.hub, self.name = hub, name
        self.cookies = httpx.Cookies()
        self.token = ""

    def sign_in(self) -> int:
        """Fill in the hub's form; return the status of its answer (302 lets in)."""
        self.browse("GET", "/hub/login")
        form = {"username": self.name, "password": PASSWORD, "_xsrf": self._xsrf()}
        return self.browse("POST", "/hub/login", data=form).status_code

    def start(self) -> None:
        """Make a token, as on the hub's own page for it, and ask for a server."""
        made = self.browse(
            "POST", f"/hub/api/users/{self.name}/tokens", headers={"X-XSRFToken": self._xsrf()}
        )
        self.token = made.raise_for_status().json()["token"]
        self.ask("POST", f"/hub/api/users/{self.name}/server")

    def wait(self) -> None:
        """Wait until the server is there."""
        wait_for(self._ready, f"the server of {self.name}")

    def _ready(self) -> bool | None:
        server = self.ask("GET", f"/hub/api/users/{self.name}").json()["servers"].get("", {})
        return server.get("ready") or None

    def _xsrf(self) -> str:
        return next(one.value or "" for one in self.cookies.jar if one.name == "_xsrf")

    def browse(self, method: str, path: str, **more: Any) -> httpx.Response:
        """Ask the hub as the person's browser, with its cookies."""
        with httpx.Client(base_url=self.hub.address, cookies=self.cookies, timeout=LONGEST) as browser:
            told = browser.request(method, path, **more)
            self.cookies = browser.cookies
        return told

    def ask(self, method: str, path: str, body: Any = None) -> httpx.Response:
        """Ask the hub for something that is allowed."""
        return self.try_to(method, path, body).raise_for_status()

    def try_to(self, method: str, path: str, body: Any = None) -> httpx.Response:
        """Ask the hub for something, allowed or not."""
        head = {"Authorization": f"token {self.token}"}
        return httpx.request(method, self.hub.address + path, json=body, headers=head, timeout=LONGEST)

    def own(self, method: str, path: str, body: Any = None) -> Any:
        """Ask the person's own server."""
        return self.ask(method, f"/user/{self.name}/{path}", body).json()

    def press(self, button: str, assignment: str, course: str) -> list[dict[str, Any]]:
        """Press a button of nbgrader's assignment list; return the rows it then shows."""
        body = {"course_id": course, "assignment_id": assignment}
        told = self.own("POST", f"assignments/{button}", body)
        assert told["success"], told
        return list(told["value"])

    def run(self, code: str, folder: str = "") -> str:
        """Run code in a kernel of the person's server, started in a folder of it; return what it printed."""
        kernel = self.own("POST", "api/kernels", {"name": "python3", "path": folder})["id"]
        place = f"/user/{self.name}/api/kernels/{kernel}"
        address = "ws" + self.hub.address.removeprefix("http") + f"{place}/channels"
        line = create_connection(address, header=[f"Authorization: token {self.token}"], timeout=LONGEST)
        try:
            return printed(line, code)
        finally:
            line.close()
            self.ask("DELETE", place)

    def shell(self, *commands: str, folder: str) -> str:
        """Run commands in a folder of the person's home, as in a terminal; all must succeed."""
        script = f"cd {folder}\n" + "\n".join(commands)
        run = f"subprocess.run(['bash', '-ec', {script!r}], stdout=-1, stderr=-2, text=True)"
        return self.run(f"import subprocess\ndone = {run}\nprint(done.stdout)\nassert done.returncode == 0")


def request(code: str) -> dict[str, Any]:
    """Return a request to a kernel."""
    head = {"msg_id": uuid4().hex, "msg_type": "execute_request", "username": "", "session": uuid4().hex}
    content = {"code": code, "silent": False, "store_history": False, "allow_stdin": False}
    head |= {"version": "5.3", "date": ""}
    return {"header": head, "parent_header": {}, "metadata": {}, "content": content, "channel": "shell"}


def printed(line: WebSocket, code: str) -> str:
    """Have a kernel run code; return what was printed."""
    asked, text, end = request(code), "", time.monotonic() + LONGEST
    line.send(json.dumps(asked))
    while time.monotonic() < end:
        told = json.loads(line.recv())
        content = told["content"]
        if told["parent_header"].get("msg_id") != asked["header"]["msg_id"]:
            continue
        text += content.get("text", "") if told["msg_type"] == "stream" else ""
        assert told["msg_type"] != "error", f"{content}\n{text}"
        if content.get("execution_state") == "idle":
            return text
    raise AssertionError(f"the kernel was not done within {LONGEST} s: {text}")
