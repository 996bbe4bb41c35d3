"""The pure rules of `mood`: no Django, no clock, no files."""
