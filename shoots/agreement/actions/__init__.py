"""A version goes out (`sending`), and the client answers (`answers`)."""
