"""The pure rules of `rights`: no Django, no clock, no files."""
