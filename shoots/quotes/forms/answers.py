"""The client's answer: typed by the client, or written down by the studio."""

from __future__ import annotations

from crispy_forms.layout import Column, Layout, Row
from django import forms
from django.utils.translation import gettext_lazy

from shoots.pages.forms import PageForm
from shoots.pages.said import HeardForm, SignedForm


class AcceptForm(SignedForm):
    """The client's yes."""

    agrees = forms.BooleanField(
        label=gettext_lazy("I accept this quote with its usage and conditions, and may do so for the client."),
        error_messages={"required": gettext_lazy("Tick this to accept.")},
    )


class DeclineForm(PageForm):
    """The client's no."""

    reason = forms.CharField(
        label=gettext_lazy("What is in the way?"),
        max_length=1000,
        required=False,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text=gettext_lazy("It helps to know, and often another version does it."),
    )


class RecordAnswerForm(HeardForm):
    """The client's yes or no as the studio heard it."""

    answer = forms.ChoiceField(
        label=gettext_lazy("What they said"),
        choices=[("yes", gettext_lazy("They accepted")), ("no", gettext_lazy("They declined"))],
        widget=forms.RadioSelect,
        initial="yes",
    )
    layout = Layout(
        "answer",
        "name",
        Row(Column("said_date", css_class="col-sm-6"), Column("said_time", css_class="col-sm-6")),
        "evidence",
    )
