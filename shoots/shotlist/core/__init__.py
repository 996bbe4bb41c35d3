"""The pure rules of `shotlist`: no Django, no clock, no files."""
