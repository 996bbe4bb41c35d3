"""Prices: the rate card, quotes in versions, and the client's acceptance."""
