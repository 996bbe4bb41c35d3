"""Forms of finished pictures."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from shoots.delivery.models import Picture
from shoots.pages.files import ManyFilesField, ManyFilesInput
from shoots.pages.forms import PageForm


class UploadForm(PageForm):
    """Finished pictures, several at once."""

    files = ManyFilesField(
        label=_("Finished pictures"),
        help_text=_("JPEG, PNG or TIFF. A name that begins with a shot's number, as 03-rim.jpg, is tied to that shot."),
        widget=ManyFilesInput(attrs={"accept": ".jpg,.jpeg,.png,.tif,.tiff"}),
    )


class DeliveryForm(PageForm):
    """What goes to the client."""

    title = forms.CharField(label=_("Title"), max_length=120)
    to_name = forms.CharField(label=_("To"), max_length=120, required=False)
    to = forms.EmailField(label=_("E-mail"))
    message = forms.CharField(label=_("Message"), required=False, widget=forms.Textarea(attrs={"rows": 4}))
    pictures = forms.ModelMultipleChoiceField(
        label=_("Pictures"),
        queryset=Picture.objects.none(),
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": _("Choose at least one picture.")},
    )

    def __init__(self, *args: Any, pictures: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["pictures"].queryset = pictures  # type: ignore[attr-defined]
