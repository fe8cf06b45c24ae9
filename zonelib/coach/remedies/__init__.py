"""Changes that mend a failed finding, each applied and judged again before it is shown."""
