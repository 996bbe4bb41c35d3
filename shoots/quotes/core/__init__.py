"""The pure rules of `quotes`: no Django, no clock, no files."""
