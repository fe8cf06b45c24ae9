"""What nbgrader knows of the class, for everybody: /etc/jupyter/nbgrader_config.py. Told in docs/hub.md.

The tutor's own settings lie in the course's folder, as without a hub.
"""

c = get_config()  # noqa: F821 - nbgrader puts it there

c.CourseDirectory.course_id = "wiring-1"
c.Exchange.root = "/srv/nbgrader/exchange"

# The most that one homework may be when it is handed in [kB]; a notebook with all its answers is under 1000.
c.CourseDirectory.max_dir_size = 5000
