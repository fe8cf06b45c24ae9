"""What the kinds share that ask for a cable: what is given of it, how it is set, and how that is judged."""
