"""Checks a machine's bill of materials against the place where the machine will stand."""

from areafit.version import __version__

__all__ = ["__version__"]
