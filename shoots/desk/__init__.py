"""Today: what is next, what is due, and where each shoot stands."""
