"""What the numbers of an engine are: measurands, which one a number is of, and the words for them."""
