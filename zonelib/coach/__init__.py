"""The teacher: the shortest run that meets the rules, and changes that mend a run that does not."""
