"""What the cutter gets."""
