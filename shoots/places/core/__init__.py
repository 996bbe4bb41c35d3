"""The pure rules of `places`: no Django, no clock, no files."""
