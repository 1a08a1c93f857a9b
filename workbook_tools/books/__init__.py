"""Reading a book: cells, calls, labels, and what recalculation gives."""
