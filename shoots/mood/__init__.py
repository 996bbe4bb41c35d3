"""What the pictures of a mood look like: references, measured; what a mood asks of pictures; the mood sheet."""
