"""What a trainee seems to have misunderstood: a change to the rules under which answers would be right."""
