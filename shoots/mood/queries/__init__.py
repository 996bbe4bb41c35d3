"""What the pages of moods and the mood sheet show, and how it is said."""
