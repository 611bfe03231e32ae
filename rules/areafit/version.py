"""The version of the rules, of the command and of the distribution: they are released together."""

__version__ = "0.1.0"
