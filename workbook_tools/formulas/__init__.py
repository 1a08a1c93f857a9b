"""The text of formulas: tokens, calls of our functions, references, and copies of a formula."""
