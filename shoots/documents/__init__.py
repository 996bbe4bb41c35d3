"""Frozen PDFs: numbered, versioned, hashed, never changed."""
