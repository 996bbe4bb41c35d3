"""The pure rules of `coverage`: no Django, no clock, no files."""
