"""Usage: what a licence allows, until when, and under which condition."""
