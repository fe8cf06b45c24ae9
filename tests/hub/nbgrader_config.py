"""The configuration of docs/hub, with a folder of the test's own and names that are no system users."""

import os

c = get_config()  # type: ignore[name-defined]  # noqa: F821 - nbgrader puts it there
load_subconfig("class_config.py")  # type: ignore[name-defined]  # noqa: F821 - nbgrader puts it there

c.Exchange.root = os.environ["TEST_EXCHANGE"]
if os.environ["JUPYTERHUB_USER"] != "tutor":
    c.CourseDirectory.student_id = os.environ["JUPYTERHUB_USER"]
