"""What is typed into the rate card, a quote, and the answer to it."""
