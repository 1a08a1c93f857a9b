"""What cells are called: labels, heads, blocks, and the texts that people type."""
