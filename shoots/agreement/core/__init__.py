"""The pure rules of `agreement`: no Django, no clock, no files."""
