"""Worksheet functions and a batch tool for engine building."""

__version__ = "0.1.0"
