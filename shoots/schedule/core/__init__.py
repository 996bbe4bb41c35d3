"""The pure rules of `schedule`: no Django, no clock, no files."""
