"""Places and spots to photograph, with their sun and their daylight."""
