"""The tutor's side: submissions read as hostile input, marked, and told of."""
