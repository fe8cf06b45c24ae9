"""The configuration of docs/hub, with what a test on one account must change."""

import json
import os
import sys
from pathlib import Path

c = get_config()  # type: ignore[name-defined]  # noqa: F821 - JupyterHub puts it there
place = json.loads(os.environ["TEST_HUB"])
home = Path(place["home"])
load_subconfig(place["config"])  # type: ignore[name-defined]  # noqa: F821 - JupyterHub puts it there

c.JupyterHub.authenticator_class = "dummy"
c.DummyAuthenticator.password = place["password"]
c.JupyterHub.spawner_class = "simple"
c.SimpleLocalProcessSpawner.home_dir_template = f"{home}/{{username}}"
c.Spawner.environment = {"JUPYTER_CONFIG_PATH": str(home / "etc"), "TEST_EXCHANGE": str(home / "exchange")}
c.Spawner.args = ["--allow-root"] if os.geteuid() == 0 else []

c.JupyterHub.bind_url = place["address"]
c.JupyterHub.hub_port = place["hub_port"]
c.JupyterHub.db_url = f"sqlite:///{home}/hub.sqlite"
c.JupyterHub.cookie_secret_file = str(home / "cookie_secret")
c.ConfigurableHTTPProxy.command = [place["proxy"]]
c.ConfigurableHTTPProxy.api_url = f"http://127.0.0.1:{place['proxy_port']}"
c.ConfigurableHTTPProxy.pid_file = str(home / "proxy.pid")

(service,) = c.JupyterHub.services
del service["user"]
service["command"] = [
    *(sys.executable, "-m", "zonelib", "serve", str(home / "served"), "--port", str(place["served_port"])),
]
