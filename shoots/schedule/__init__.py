"""The order of the day, and the hours that people may work."""
