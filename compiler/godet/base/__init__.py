"""What every room may use: places in a text, problems as data, the table of words, digests."""
