"""The base of every form: labels above, errors by the field, and the version that was opened."""

from __future__ import annotations

from typing import Any

from crispy_forms.helper import FormHelper
from crispy_forms.layout import Layout
from django import forms
from django.utils.translation import gettext_lazy as _

EDITED_MEANWHILE = _(
    "Somebody saved this in the meantime. What you typed is still here; open the page in a second window to "
    "compare, then save again to put yours in its place."
)

DASHES = "---------"


class PageForm(forms.Form):
    """A plain form drawn by crispy-forms; the template writes the form tag and the button."""

    #: Layout rows, or None for the fields in their order.
    layout: Layout | None = None

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = _helper(self.layout)


class RecordForm(forms.ModelForm):  # type: ignore[type-arg]  # not generic at run time
    """A form for one record. It carries the version that was opened, so that a second window can be told.

    The view asks `seen_version` and calls an action; the form itself never saves.
    """

    layout: Layout | None = None
    version = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = _helper(self.layout)
        for field in self.fields.values():
            _say_what_is_empty(field)
        self.initial["version"] = self.instance.version if self.instance.pk else 0

    @property
    def seen_version(self) -> int:
        return self.cleaned_data.get("version") or 0

    @property
    def changes(self) -> dict[str, Any]:
        """The cleaned values of the record's own fields, as `members.actions.save_edit` takes them."""
        return {name: value for name, value in self.cleaned_data.items() if name != "version"}

    def _post_clean(self) -> None:
        # The instance must stay as it was loaded: what was typed is not yet true. Validate on a copy.
        loaded = self.instance
        self.instance = type(loaded)()
        self.instance.__dict__.update({k: v for k, v in loaded.__dict__.items() if k != "_state"})
        self.instance._state.adding = loaded._state.adding
        self.instance._state.db = loaded._state.db
        try:
            super()._post_clean()  # type: ignore[misc]
        finally:
            self.instance = loaded

    def refuse_edited_meanwhile(self, *, current_version: int | None = None) -> None:
        """Say that somebody was faster, and let the next save win knowingly.

        The version to beat is the stored record's, or 0 when it is gone: one query. A form for a record that had no
        row when it was opened can't know it and is told.
        """
        if current_version is None:
            stored = type(self.instance)._base_manager.filter(pk=self.instance.pk)
            current_version = stored.values_list("version", flat=True).first() or 0
        self.add_error(None, str(EDITED_MEANWHILE))
        self.data = self.data.copy()
        self.data[self.add_prefix("version")] = str(current_version)


def _say_what_is_empty(field: forms.Field) -> None:
    """Give a list's empty entry words in place of dashes: to choose where one must, none where one need not."""
    words = _("Choose …") if field.required else _("None")
    if isinstance(field, forms.ModelChoiceField):
        if field.empty_label == DASHES:
            field.empty_label = words
    elif isinstance(field, forms.TypedChoiceField) and not callable(field.choices):
        field.choices = [(key, words if key == "" and label == DASHES else label) for key, label in field.choices]


def _helper(layout: Layout | None) -> FormHelper:
    helper = FormHelper()
    helper.form_tag = False
    helper.disable_csrf = True
    helper.html5_required = True
    if layout is not None:
        helper.layout = layout
    return helper


class DateInput(forms.DateInput):
    """A date field with the browser's own picker."""

    input_type = "date"

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(format="%Y-%m-%d", **kwargs)


class TimeInput(forms.TimeInput):
    """A time of day with the browser's own picker."""

    input_type = "time"

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(format="%H:%M", **kwargs)
