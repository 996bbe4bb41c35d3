"""Display only: how values are shown."""
