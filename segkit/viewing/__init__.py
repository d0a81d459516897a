"""How tall, how bright, how steady."""
