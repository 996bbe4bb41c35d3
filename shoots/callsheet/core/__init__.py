"""Who needs what on a call sheet, what changed since the last one, and what emergencies ask for. Pure."""
