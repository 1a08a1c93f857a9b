"""One job's numbers: split, read, computed, with its paperwork."""
