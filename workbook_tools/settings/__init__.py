"""Files of settings: one reader of TOML that says what is wrong where, and where they lie."""
