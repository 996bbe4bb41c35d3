"""Picture files: what they are, opened carefully, and small copies of them. Below every slice that takes uploads."""
