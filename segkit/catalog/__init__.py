"""Things that can be bought, with limits and sources."""
