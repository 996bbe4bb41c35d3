"""The pure rules of `delivery`: no Django, no clock, no files."""
