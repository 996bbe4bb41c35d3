"""The demo: a scenario of inventions, loaded by calling the same actions as the pages do."""
