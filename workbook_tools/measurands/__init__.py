"""What numbers of an engine are: measurands, which one a number is of, and words for both."""
