"""Forms of a day: its times, its blocks, and who comes when."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import time
from typing import Any

from crispy_forms.layout import Column, Layout, Row
from django import forms
from django.core.validators import MaxValueValidator
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.kit.models import Battery
from shoots.lighting.models import Setup
from shoots.pages.forms import PageForm, RecordForm, TimeInput
from shoots.schedule.models import BlockKind, DayBlock
from shoots.schedule.queries.care import Kind
from shoots.schedule.queries.plan import DayPage, DayPerson, PlanRow
from shoots.shoot.core.holds import HoldProblem, hold_problems
from shoots.shoot.models import Booking, Shoot, ShootDay

MOST_MINUTES = 960
CHANGED_MEANWHILE = gettext_lazy(
    "The plan was changed in another window. What you typed is still here; look at the plan below, then save again."
)


def _row(*names: str) -> Row:
    return Row(*(Column(name, css_class="col-sm") for name in names))


class DayTimesForm(RecordForm):
    """Call and planned wrap of a day."""

    layout = Layout(_row("call_time", "wrap_time"), "version")

    class Meta:
        model = ShootDay
        fields = ("call_time", "wrap_time")
        widgets = {"call_time": TimeInput(), "wrap_time": TimeInput()}

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        problems = hold_problems(
            day=None, held_until=None, call=cleaned.get("call_time"), wrap=cleaned.get("wrap_time")
        )
        self.refuse_times(problems)
        return cleaned

    def refuse_times(self, problems: Sequence[HoldProblem]) -> None:
        """Say by the field what is wrong with the two times."""
        if HoldProblem.WRAP_BEFORE_CALL in problems:
            words = _("The wrap is before the call. Only a day called at noon or later may wrap after midnight.")
            self.add_error("wrap_time", words)


class PlanForm(PageForm):
    """The minutes of every block, the mark of the plan that they were typed over, and what is to be done besides.

    `do` is save, up:KEY, down:KEY or order; without script the buttons of the page send it.
    """

    seen = forms.CharField(widget=forms.HiddenInput, max_length=16, required=False)

    def __init__(self, *args: Any, page: DayPage, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.blocks = {block.pk: block for block in page.blocks}
        self.initial["seen"] = page.mark
        for number, (key, block) in enumerate(self.blocks.items(), start=1):
            name = f"minutes-{key}"
            self.fields[name] = forms.IntegerField(
                # A block that came while the page was open was not asked about.
                required=not self.is_bound or name in self.data,
                label=_("Minutes of block %(n)d, %(block)s") % {"n": number, "block": block},
                min_value=0,
                max_value=MOST_MINUTES,
                initial=block.minutes,
                widget=forms.NumberInput(attrs={"step": 5, "inputmode": "numeric"}),
            )

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if "seen" in self.errors:  # nobody sees a hidden field's error
            self.add_error(None, _("This page reached us damaged, and nothing was saved. Load it again."))
        return cleaned

    @property
    def minutes(self) -> dict[int, int]:
        typed = {key: self.cleaned_data[f"minutes-{key}"] for key in self.blocks}
        return {key: minutes for key, minutes in typed.items() if minutes is not None}

    @property
    def move(self) -> tuple[int, int] | None:
        """The block to be moved and by how many places, if one is."""
        way, _colon, key = str(self.data.get("do", "")).partition(":")
        if way in ("up", "down") and key.isdecimal() and len(key) < 19:
            return int(key), -1 if way == "up" else 1
        return None

    @property
    def order(self) -> list[int]:
        """The whole order, when the page's script sends it."""
        if self.data.get("do") != "order":
            return []
        keys = str(self.data.get("order", "")).split(",")
        return [int(key) for key in keys if key.isdecimal() and len(key) < 19]

    def refuse_changed(self, page: DayPage) -> None:
        """Say that the plan is another by now, and let the next save win knowingly."""
        self.add_error(None, str(CHANGED_MEANWHILE))
        self.data = self.data.copy()
        self.data["seen"] = page.mark
        for block in page.blocks:
            self.data.setdefault(f"minutes-{block.pk}", str(block.minutes))

    def lines(self, rows: Iterable[PlanRow]) -> list[tuple[PlanRow, forms.BoundField | None]]:
        """Return the plan's rows, each block with its field; a block that came meanwhile has none."""
        return [
            (row, self[f"minutes-{row.block.pk}"] if row.block and f"minutes-{row.block.pk}" in self.fields else None)
            for row in rows
        ]


class BlockForm(RecordForm):
    """One block."""

    layout = Layout(_row("kind", "minutes"), "setup", "label", "version")

    class Meta:
        model = DayBlock
        fields = ("kind", "minutes", "setup", "label")
        help_texts = {
            "setup": gettext_lazy("A shoot covers the day's shots of its setup; a move leads to the setup's place."),
            "label": gettext_lazy("Lunch, say, or what else there is to know."),
        }

    def __init__(self, *args: Any, shoot: Shoot, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["setup"].queryset = Setup.objects.filter(shoot=shoot)
        self.fields["setup"].empty_label = _("None")
        self.fields["minutes"].validators.append(MaxValueValidator(MOST_MINUTES))

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("kind") == BlockKind.BUILD and not cleaned.get("setup") and not cleaned.get("label"):
            self.add_error("setup", _("Say which light is built: its setup, or a few words."))
        return cleaned


class CallsForm(PageForm):
    """When each person is called and what they bring, with the versions that were seen."""

    def __init__(self, *args: Any, people: Sequence[DayPerson], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.people = people
        bring = Booking._meta.get_field("bring")
        for person in people:
            booking, name = person.booking, {"name": person.person.name}
            self.fields[f"call-{booking.pk}"] = forms.TimeField(
                label=_("Call of %(name)s") % name, required=False, initial=booking.call_time, widget=TimeInput()
            )
            self.fields[f"bring-{booking.pk}"] = forms.CharField(
                label=_("What %(name)s brings") % name,
                required=False,
                initial=booking.bring,
                max_length=bring.max_length,
            )
            self.fields[f"version-{booking.pk}"] = forms.IntegerField(
                required=False, initial=booking.version, widget=forms.HiddenInput
            )

    def given(self, person: DayPerson) -> tuple[time | None, str, int]:
        """Return what was typed for somebody: call, what they bring, and the version it was typed over."""
        key = person.booking.pk
        data = self.cleaned_data
        return data[f"call-{key}"], data[f"bring-{key}"], data[f"version-{key}"] or 0

    def lines(self) -> list[tuple[DayPerson, forms.BoundField, forms.BoundField, forms.BoundField]]:
        """Return each person with their three fields."""
        keys = [(person, person.booking.pk) for person in self.people]
        return [(person, self[f"call-{key}"], self[f"bring-{key}"], self[f"version-{key}"]) for person, key in keys]

    def refuse_edited_meanwhile(self, people: Sequence[DayPerson]) -> None:
        """Say that somebody was faster, and let the next save win knowingly."""
        words = _(
            "Somebody changed a booking in the meantime. What you typed is still here; save again to put it there."
        )
        self.add_error(None, words)
        self.data = self.data.copy()
        for person in people:
            self.data[f"version-{person.booking.pk}"] = str(person.booking.version)


class PackForm(PageForm):
    """How many batteries of each kind go to the shoot; empty is all that the bag has."""

    def __init__(self, *args: Any, kinds: Sequence[Kind], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.kinds = {f"packed-{kind.battery.pk}": kind for kind in kinds}
        for name, kind in self.kinds.items():
            self.fields[name] = forms.IntegerField(
                label=kind.battery.name,
                required=False,
                min_value=0,
                max_value=500,
                initial=kind.said,
                widget=forms.NumberInput(attrs={"placeholder": str(kind.in_bag), "inputmode": "numeric"}),
                help_text=_("Packed and charged. Empty: all %(n)d in the bag.") % {"n": kind.in_bag},
            )

    @property
    def counts(self) -> dict[Battery, int | None]:
        return {kind.battery: self.cleaned_data.get(name) for name, kind in self.kinds.items()}
