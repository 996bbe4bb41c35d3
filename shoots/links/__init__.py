"""Token links for clients who have no account."""
