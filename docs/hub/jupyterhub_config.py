"""JupyterHub for one class on one machine: /etc/jupyterhub/jupyterhub_config.py. Told in docs/hub.md."""

import sys

c = get_config()  # noqa: F821 - JupyterHub puts it there

# Who may sign in. Since JupyterHub 5 nobody may whom no line here lets in.
c.Authenticator.allowed_users = {"tutor", "amy", "bob"}
# No administrator, the tutor neither: an administrator can open every trainee's server.
c.Authenticator.admin_users = set()

# nginx stands before it, with HTTPS.
c.JupyterHub.bind_url = "http://127.0.0.1:8000"
c.JupyterHub.db_url = "sqlite:////srv/jupyterhub/jupyterhub.sqlite"
c.JupyterHub.cookie_secret_file = "/srv/jupyterhub/cookie_secret"  # noqa: S105 - the name of a file

# How many at once: 31 servers in all, 5 starting.
c.JupyterHub.active_server_limit = 31
c.JupyterHub.concurrent_spawn_limit = 5

# What is asked for each server. The spawner that comes with JupyterHub holds nobody to it: see docs/hub.md.
c.Spawner.mem_limit = "1G"
c.Spawner.cpu_limit = 1.0
c.Spawner.default_url = "/lab"
# A server that is slow to start in a busy hour is no fault.
c.Spawner.start_timeout = c.Spawner.http_timeout = 180

# Practice and quizzes, started and started again by the hub. Candidates sign in there by their code.
c.JupyterHub.services = [
    {
        "name": "exercises",
        "command": [
            *(sys.executable, "-m", "zonelib", "serve", "/srv/exercises"),
            *("--port", "8600", "--behind-proxy"),
        ],
        "user": "exercises",
        "display": False,
    },
]
