"""The tests; a package, so that no other package of that name is found in its place."""
