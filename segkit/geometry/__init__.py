"""Segments, digits and the board, in millimetres."""
