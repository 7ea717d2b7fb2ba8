"""What a person runs: the commands, and the Python calls behind them."""
