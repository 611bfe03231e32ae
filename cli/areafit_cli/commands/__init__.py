"""One module a command, each with one function `command`; imported when it is called."""
