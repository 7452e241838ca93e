"""One file per command; each is: parse, call one solver function, render."""
