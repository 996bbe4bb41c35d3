"""The planned pictures, in order, and which setup each one uses."""
