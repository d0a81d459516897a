"""From the segment to the plug."""
