"""The light pocket behind each segment."""
