"""Arguments in, exit code out; one module per command."""
