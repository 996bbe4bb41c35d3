"""Notes of a phone call, read into drafts for the brief and the shot list."""
