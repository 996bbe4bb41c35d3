"""The pure rules of `brief`: no Django, no clock, no files."""
