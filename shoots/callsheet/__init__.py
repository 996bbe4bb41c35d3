"""Who has to be where, when, with what, for which pictures."""
