"""What every slice's edge shares: the base form, typed requests, file answers. No models, no URLs, no decisions.

Only forms, views and access modules import from here; a contract in pyproject.toml says so. It exists because a
form base class has no place in any slice: the design keeps each slice's forms private to it.
"""
