"""The course's settings for nbgrader, read by each of its commands that is run from this folder."""

from zonelib.desk.nbgrader import course

course(get_config())  # noqa: F821 - nbgrader puts it there
