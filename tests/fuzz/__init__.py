"""Files that anyone may hand in, made up: each reader gives a value or a named error, quickly."""
