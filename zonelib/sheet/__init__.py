"""What a trainee works in: the pad, the panel, saving and handing in."""
