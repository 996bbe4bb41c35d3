"""What is typed when a brief goes out, and the client's answer to it."""

from __future__ import annotations

from crispy_forms.layout import Column, Layout, Row
from django import forms
from django.utils.translation import gettext_lazy

from shoots.pages.forms import PageForm
from shoots.pages.said import HeardForm, SignedForm

MOST_WORDS = 4000


class SendForm(PageForm):
    """Where a brief goes, and what was looked at: the newest version that was there, and a fingerprint."""

    seen_number = forms.IntegerField(widget=forms.HiddenInput, required=False, min_value=0, max_value=32767)
    seen_print = forms.CharField(widget=forms.HiddenInput, required=False, max_length=64)
    email = forms.EmailField(
        label=gettext_lazy("To"),
        required=False,
        help_text=gettext_lazy("Empty: no mail goes out, you hand the link on yourself."),
    )
    message = forms.CharField(
        label=gettext_lazy("A line of your own in the mail"),
        required=False,
        max_length=2000,
        widget=forms.Textarea(attrs={"rows": 3}),
    )


class ApproveForm(SignedForm):
    """The client's yes."""


class CorrectForm(SignedForm):
    """What isn't right."""

    words = forms.CharField(
        label=gettext_lazy("What isn’t right, or is missing?"),
        max_length=MOST_WORDS,
        widget=forms.Textarea(attrs={"rows": 4}),
        error_messages={"required": gettext_lazy("Say what isn’t right; a few words are enough.")},
    )
    layout = Layout("words", "name")

    def __init__(self, *args: object, **kwargs: object) -> None:
        super().__init__(*args, auto_id="id_correct_%s", **kwargs)  # type: ignore[misc]
        self.fields["name"].label = gettext_lazy("Your name")
        self.fields["name"].error_messages["required"] = gettext_lazy("Type your name, so that we know who to ask.")


class RecordAnswerForm(HeardForm):
    """The client's yes, or what isn't right, as the studio heard it."""

    answer = forms.ChoiceField(
        label=gettext_lazy("What they said"),
        choices=[("yes", gettext_lazy("Yes, that’s right")), ("no", gettext_lazy("Something isn’t right"))],
        widget=forms.RadioSelect,
        initial="yes",
    )
    layout = Layout(
        "answer",
        "name",
        Row(Column("said_date", css_class="col-sm-6"), Column("said_time", css_class="col-sm-6")),
        "evidence",
    )

    def __init__(self, *args: object, **kwargs: object) -> None:
        super().__init__(*args, **kwargs)  # type: ignore[arg-type]
        self.fields["evidence"].label = gettext_lazy("In their words, and how you know")
        self.fields["evidence"].max_length = MOST_WORDS  # type: ignore[attr-defined]
