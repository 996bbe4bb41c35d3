"""Forms of a call: its notes, an edit of a draft, and what a call becomes."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Column, Layout, Row
from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.brief.core.territories import UnknownTerritory, read_territories, written
from shoots.call.core.drafts import CountOf, DraftKind, Pole, Tax
from shoots.call.core.landing import ALL_MEDIA, placements_of
from shoots.call.models import LONGEST_NOTES, Draft, clean_notes
from shoots.call.queries import words
from shoots.members.models import Studio
from shoots.pages.choices import currencies
from shoots.pages.forms import DateInput, PageForm, TimeInput
from shoots.shoot.core.codes import is_code
from shoots.shoot.models import Shoot


class NotesForm(PageForm):
    """The notes of a call and who is calling; `key` and `window` come from the page's script."""

    caller = forms.CharField(
        label=gettext_lazy("Who is calling?"),
        max_length=140,
        required=False,
        widget=forms.TextInput(attrs={"list": "callers", "autocomplete": "off", "enterkeyhint": "next"}),
    )
    notes = forms.CharField(
        label=gettext_lazy("Notes"),
        required=False,
        strip=False,
        widget=forms.Textarea(attrs={"class": "big-box", "rows": 12, "spellcheck": "true", "dir": "auto"}),
    )
    version = forms.IntegerField(widget=forms.HiddenInput, required=False)
    key = forms.UUIDField(widget=forms.HiddenInput, required=False)
    window = forms.CharField(widget=forms.HiddenInput, max_length=36, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        # A null character is cleaned away like the other control characters; the rest of the notes is kept.
        self.fields["notes"].validators = []
        self.fields["caller"].validators = [
            check for check in self.fields["caller"].validators if hasattr(check, "limit_value")
        ]

    def clean_caller(self) -> str:
        return clean_notes(self.cleaned_data["caller"]).replace("\n", " ").strip()

    def clean_notes(self) -> str:
        notes = clean_notes(self.cleaned_data["notes"])
        size = len(notes.encode())
        if size > LONGEST_NOTES:
            words = _(
                "These notes have %(size)d kB; a call holds %(most)d kB. Nothing was saved and nothing is lost: "
                "shorten them here, or split them into two calls."
            )
            raise forms.ValidationError(words % {"size": size // 1000, "most": LONGEST_NOTES // 1000})
        return notes

    def refuse_edited_meanwhile(self, *, current_version: int) -> None:
        """Say that another window saved, and let the next save win knowingly."""
        words = _(
            "This call was saved in another window. What you typed is still here; open the call in a second window "
            "to compare, then save again to put yours in its place."
        )
        self.add_error(None, words)
        self.data = self.data.copy()
        self.data["version"] = str(current_version)


def _row(*names: str) -> Row:
    return Row(*(Column(name, css_class="col-sm") for name in names))


class TakeUpForm(PageForm):
    """Which shoot a call becomes: one that is there, or a new one."""

    shoot = forms.ModelChoiceField(
        label=gettext_lazy("It belongs to"),
        queryset=Shoot.objects.none(),
        required=False,
        empty_label=gettext_lazy("a new shoot"),
    )
    client_name = forms.CharField(
        label=gettext_lazy("Client"),
        max_length=120,
        required=False,
        widget=forms.TextInput(attrs={"list": "callers", "autocomplete": "off"}),
        help_text=gettext_lazy("Pick one, or type a new name."),
    )
    contact_name = forms.CharField(
        label=gettext_lazy("Who called"),
        max_length=120,
        required=False,
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
        help_text=gettext_lazy("Becomes the client’s contact."),
    )
    title = forms.CharField(label=gettext_lazy("Title"), max_length=140, required=False)
    code = forms.CharField(label=gettext_lazy("Code"), max_length=24, required=False)
    layout = Layout("shoot", "title", _row("client_name", "contact_name"), "code")

    def __init__(self, *args: Any, studio: Studio, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["shoot"].queryset = Shoot.objects.of_studio(studio).at_hand()

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("shoot") or "shoot" in self.errors:
            return cleaned
        if not cleaned.get("title"):
            self.add_error("title", _("A new shoot needs a title."))
        code = cleaned.get("code", "")
        if code and not is_code(code):
            self.add_error("code", _("A code has letters, digits and dashes only, as 26-014."))
        if cleaned.get("contact_name") and not cleaned.get("client_name"):
            self.add_error("client_name", _("Whom do they call for? A contact needs a client."))
        return cleaned

    def refuse_code(self, *, taken_by: Shoot, free: str) -> None:
        words = _("%(code)s is “%(title)s”. The next free code is %(free)s.")
        self.add_error("code", words % {"code": taken_by.code, "title": taken_by.title, "free": free})


def _number(label: Any, **kwargs: Any) -> forms.IntegerField:
    return forms.IntegerField(label=label, min_value=0, max_value=2000, required=False, **kwargs)


def _text(label: Any, *, longest: int = 160, **kwargs: Any) -> forms.CharField:
    return forms.CharField(label=label, max_length=longest, **{"required": False, **kwargs})


def _choice(label: Any, labels: Any) -> forms.ChoiceField:
    return forms.ChoiceField(label=label, choices=[(str(code), said) for code, said in labels])


class DraftForm(PageForm):
    """An edit of one draft before it is accepted: the fields follow from its kind.

    `value` is the edited value as the draft keeps it.
    """

    is_wish = forms.BooleanField(label=gettext_lazy("Only if there is time"), required=False)

    def __init__(self, *args: Any, draft: Draft, **kwargs: Any) -> None:
        value = draft.value
        begun = {**value, "is_wish": draft.is_wish}
        kind = DraftKind(draft.kind)
        if kind is DraftKind.TERRITORY:
            minus = "-" if value.get("excluded") else ""
            begun["names"] = written([f"{minus}{code}" for code in value.get("codes", [])])
        elif kind is DraftKind.PRODUCT:
            begun |= {name: ", ".join(value.get(name, [])) for name in ("colours", "sizes")}
        elif kind is DraftKind.DATE:
            first, *second = value.get("any_of") or [value.get("first")]
            begun |= {"first": first, "second": second[0] if second else None}
            if value.get("last") and value["last"] != first:
                begun["last"] = value["last"]
        super().__init__(*args, initial=begun, **kwargs)
        self.draft, self.kind = draft, kind
        own = _fields_of(kind)
        wish = self.fields.pop("is_wish")
        self.fields.update(own)
        if kind in WISHES:
            self.fields["is_wish"] = wish
        names = [name for name in self.fields if name != "is_wish"]
        wish_row = ["is_wish"] if "is_wish" in self.fields else []
        self.helper.layout = Layout(*(_row(*names[n : n + 2]) for n in range(0, len(names), 2)), *wish_row)

    @property
    def value(self) -> dict[str, Any]:
        """The edited value, without what says nothing."""
        typed = {name: plain for name, plain in self.cleaned_data.items() if name != "is_wish"}
        shape = SHAPED.get(self.kind, _shape_plain)
        said = shape(dict(self.draft.value), typed)
        return {name: plain for name, plain in said.items() if plain not in (None, "", [], False)}

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        low, high = cleaned.get("minimum"), cleaned.get("maximum")
        if low is not None and high is not None and high < low:
            self.add_error("maximum", _("The most is less than the least."))
        if self.kind is DraftKind.COUNT and low is None and high is None and not self.errors:
            self.add_error("minimum", _("How many? Give a number."))
        first, last = cleaned.get("first"), cleaned.get("last")
        if first and last and last < first:
            self.add_error("last", _("The last day is before the first."))
        endless = cleaned.get("months") or cleaned.get("perpetual")
        if self.kind is DraftKind.LICENCE and not self.errors and not endless:
            self.add_error("months", _("For how many months, or for good?"))
        return cleaned

    def clean_names(self) -> list[str]:
        try:
            codes = list(read_territories(self.cleaned_data["names"]))
        except UnknownTerritory as unknown:
            raise forms.ValidationError(_("“%(name)s” is no country or group that is known here.") % {"name": unknown})
        if not codes:
            raise forms.ValidationError(_("Which countries?"))
        return codes


WISHES = {DraftKind.COUNT, DraftKind.PRODUCT, DraftKind.WISH, DraftKind.PERSON, DraftKind.COPY_SPACE, DraftKind.FRAMING}


def _fields_of(kind: DraftKind) -> dict[str, forms.Field]:
    made = {
        DraftKind.COUNT: lambda: {
            "minimum": _number(_("At least")),
            "maximum": _number(_("At most")),
            "of": _choice(_("Of what"), [(of, words.count_words(of, 2).split(" ", 1)[1]) for of in CountOf]),
            "per": _text(_("For each"), longest=40),
        },
        DraftKind.SHAPE: lambda: {
            "shape": _text(_("Shape"), longest=40, required=True, help_text=_("As 4:5, 9:16 or landscape banner.")),
            "count": _number(_("How many of it")),
        },
        DraftKind.PLACEMENT: lambda: {
            "placement": _choice(
                _("Where it is seen"),
                [(ALL_MEDIA, _("All media"))]
                + [(code, words.placement_words(code)) for code in words.placement_codes() if placements_of(code)],
            )
        },
        DraftKind.TERRITORY: lambda: {
            "names": _text(
                _("Countries"), longest=400, required=True, help_text=_("As UK and Ireland, Germany, world except US.")
            )
        },
        DraftKind.DATE: lambda: {
            "kind": _choice(_("What happens"), words.DATE_WORDS.items()),
            "first": forms.DateField(label=_("Day"), widget=DateInput(), required=False),
            "second": forms.DateField(label=_("Or, second option"), widget=DateInput(), required=False),
            "last": forms.DateField(label=_("Up to and with"), widget=DateInput(), required=False),
            "by": forms.DateField(label=_("At the latest"), widget=DateInput(), required=False),
            "hours_from": forms.TimeField(label=_("From"), widget=TimeInput(), required=False),
            "hours_to": forms.TimeField(label=_("Until"), widget=TimeInput(), required=False),
        },
        DraftKind.MONEY: lambda: {
            "amount": forms.DecimalField(label=_("Amount"), min_value=0, max_digits=12, decimal_places=2),
            "currency": forms.ChoiceField(label=_("Currency"), choices=currencies),
            "kind": _choice(_("What it is"), words.MONEY_WORDS.items()),
            "tax": _choice(_("Tax"), [(tax, words.TAX_WORDS[tax]) for tax in Tax]),
        },
        DraftKind.MOOD: lambda: {
            "pole": _choice(_("Between dark and bright"), [(pole, words.POLE_WORDS[pole]) for pole in Pole]),
            "words": _text(_("In words")),
        },
        DraftKind.PRODUCT: lambda: {
            "name": _text(_("Product"), longest=100, required=True),
            "colours": _text(_("Colours"), help_text=_("With commas between them.")),
            "sizes": _text(_("Sizes"), help_text=_("With commas between them.")),
            "quantity": _number(_("How many")),
        },
        DraftKind.PERSON: lambda: {
            "role": _text(_("Who"), longest=100, required=True),
            "count": _number(_("How many")),
            "age": forms.IntegerField(label=_("Age"), min_value=0, max_value=120, required=False),
        },
        DraftKind.PLACE: lambda: {"name": _text(_("Place"), longest=100, required=True)},
        DraftKind.LICENCE: lambda: {
            "months": forms.DecimalField(label=_("Months"), min_value=0, max_value=1200, required=False),
            "perpetual": forms.BooleanField(label=_("For as long as copyright lasts"), required=False),
        },
        DraftKind.EXCLUSIVITY: lambda: {
            "exclusive": forms.BooleanField(label=_("Exclusive"), required=False),
            "scope": _text(_("In what")),
            "months": forms.DecimalField(label=_("Months"), min_value=0, max_value=1200, required=False),
        },
        DraftKind.COPY_SPACE: lambda: {"position": _text(_("Where")), "purpose": _text(_("For what"))},
        DraftKind.PERMISSION: lambda: {"because": _text(_("What it is about"))},
        DraftKind.HAZARD: lambda: {"because": _text(_("What it is about"))},
    }
    return made.get(kind, lambda: {"text": _text(_("Words"), longest=300, required=True)})()


def _shape_plain(old: dict[str, Any], new: dict[str, Any]) -> dict[str, Any]:
    return {**old, **new, "approximate": False}


def _shape_date(old: dict[str, Any], new: dict[str, Any]) -> dict[str, Any]:
    first, second, last = new["first"], new["second"], new["last"]
    kept = {"kind": new["kind"], "at_clients": old.get("at_clients"), "held": old.get("held")}
    if first and second:
        kept["any_of"] = [first.isoformat(), second.isoformat()]
    elif first:
        kept |= {"first": first.isoformat(), "last": (last or first).isoformat()}
    if new["by"]:
        kept["by"] = new["by"].isoformat()
    for name in ("hours_from", "hours_to"):
        kept[name] = f"{new[name]:%H:%M}" if new[name] else ""
    return kept


def _shape_product(old: dict[str, Any], new: dict[str, Any]) -> dict[str, Any]:
    lists = {name: [part.strip() for part in new[name].split(",") if part.strip()] for name in ("colours", "sizes")}
    return {**new, **lists}


def _shape_person(old: dict[str, Any], new: dict[str, Any]) -> dict[str, Any]:
    minor = new["age"] < 18 if new["age"] is not None else old.get("minor")
    return {**old, **new, "ages": [], "minor": minor}


def _shape_money(old: dict[str, Any], new: dict[str, Any]) -> dict[str, Any]:
    return {**new, "amount": str(new["amount"])}


def _shape_months(old: dict[str, Any], new: dict[str, Any]) -> dict[str, Any]:
    return {**old, **new, "months": None if new["months"] is None else str(new["months"]), "assumed": False}


SHAPED: dict[DraftKind, Any] = {
    DraftKind.TERRITORY: lambda old, new: {"codes": new["names"]},
    DraftKind.DATE: _shape_date,
    DraftKind.PRODUCT: _shape_product,
    DraftKind.PERSON: _shape_person,
    DraftKind.MONEY: _shape_money,
    DraftKind.LICENCE: _shape_months,
    DraftKind.EXCLUSIVITY: _shape_months,
}
