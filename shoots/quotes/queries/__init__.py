"""What pages and documents need of `quotes`: the card, the price, the paper, where a quote stands."""
