"""The pure rules of `desk`: no Django, no clock, no files."""
