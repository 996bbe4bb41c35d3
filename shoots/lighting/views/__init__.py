"""Pages of light: setups, and what stands beside them: panels, readings, starting points, conventions."""
