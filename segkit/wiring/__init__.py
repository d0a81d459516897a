"""Which output lights which segment."""
