"""What is there: walls, openings, accessories, joists, cables, and their geometry."""
