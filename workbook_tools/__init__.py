"""Worksheet functions and a batch tool for engine building."""
