"""The shot list (`shots`), many at once (`many`), what is in them (`parts`), `tables` and `templates`."""
