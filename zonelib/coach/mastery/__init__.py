"""What a trainee has mastered, when to revise it, and what to practise next."""
