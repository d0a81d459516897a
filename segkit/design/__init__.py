"""What the builder asks for: the design file and its records."""
