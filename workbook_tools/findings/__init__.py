"""What a summary has to warn about, one module a kind of check."""
