"""The pure rules of `call`: no Django, no clock, no files."""
