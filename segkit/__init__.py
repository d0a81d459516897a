"""segkit: from a reading distance to the sheets, parts, wires and tables of a large numeral display."""

__version__ = "0.1.0"
