"""Book and findings to the summary of a build, the only thing a renderer gets."""
