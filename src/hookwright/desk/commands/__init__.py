"""One file a command. Each has `command`; heavy rooms are imported inside it, when it runs."""
