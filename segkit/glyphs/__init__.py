"""Which segments make which character."""
