"""Several files at once in one field."""

from __future__ import annotations

from typing import Any

from django import forms


class ManyFilesInput(forms.ClearableFileInput):
    """A file field that takes several files at once."""

    allow_multiple_selected = True


class ManyFilesField(forms.FileField):
    """Cleans to a list of files, whatever their number; an empty one is told by name where the others are taken."""

    widget = ManyFilesInput

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(allow_empty_file=True, **kwargs)

    def clean(self, data: Any, initial: Any = None) -> list[Any]:
        files = data if isinstance(data, list | tuple) and data else [data or None]
        return [super(ManyFilesField, self).clean(one, initial) for one in files]
