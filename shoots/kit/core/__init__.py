"""The pure rules of `kit`: no Django, no clock, no files."""
