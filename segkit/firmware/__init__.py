"""What the controller gets."""
