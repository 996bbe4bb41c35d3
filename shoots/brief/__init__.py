"""What the pictures are for, and the mood that they should have."""
