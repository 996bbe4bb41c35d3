"""The pure rules of `lighting`: no Django, no clock, no files."""
