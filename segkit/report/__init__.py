"""The build book."""
