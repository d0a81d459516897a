"""What the board looks like lit."""
