"""The app, in slices; DEVELOPERS.md draws the map. A slice may use those below it, never those above."""
