"""One module a screen, each with `show(seen)`."""
