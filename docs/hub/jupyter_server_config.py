"""What each person's server does: /etc/jupyter/jupyter_server_config.py. Told in docs/hub.md."""

c = get_config()  # noqa: F821 - Jupyter puts it there

# The tutor's own commands do all that formgrader does. Under a hub its frame stays blank.
c.ServerApp.jpserver_extensions = {"nbgrader.server_extensions.formgrader": False}

# Memory comes back when somebody goes home: kernels after an hour, servers after two [s].
c.MappingKernelManager.cull_idle_timeout = 3600
c.MappingKernelManager.cull_connected = True
c.ServerApp.shutdown_no_activity_timeout = 7200
