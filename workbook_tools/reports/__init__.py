"""Summaries of builds and batches, and their renderers."""
