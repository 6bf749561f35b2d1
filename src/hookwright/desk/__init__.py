"""The desk: the command line, and the only room that touches files, the terminal, the clock and the environment.

`main` is the command; `commands/` has one file a command; `open_manuscript` reads a file or says in words why not;
`keep_file` writes one without ever taking away what somebody else made; `show` puts findings on the terminal.
Nothing is imported here, so that `hookwright --help` answers at once.
"""
