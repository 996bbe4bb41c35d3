"""A table that is pasted or uploaded, and the names of templates."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.pages.forms import PageForm, RecordForm
from shoots.shotlist.adapters import is_workbook, read_workbook
from shoots.shotlist.core.cells import MOST_COLUMNS, MOST_ROWS, NoTable, TableTooBig, decoded, split_table
from shoots.shotlist.core.columns import Column
from shoots.shotlist.models import ShotTemplate

MOST_BYTES = 2_000_000
Table = tuple[tuple[str, ...], ...]

_TOO_BIG = {
    "rows": gettext_lazy("That is more than %(rows)d rows. Take it over in parts."),
    "columns": gettext_lazy("That is more than %(columns)d columns."),
    "letters": gettext_lazy("That is too much text for a shot list: a million letters, ten thousand in a cell."),
    "bytes": gettext_lazy("That workbook unpacks to more than it should. Save the sheet as CSV and try again."),
}


class TableForm(PageForm):
    """A table, pasted or as a file; `table` holds its cells once the form is valid."""

    text = forms.CharField(
        label=gettext_lazy("Paste rows from a spreadsheet"),
        required=False,
        strip=False,
        widget=forms.Textarea(attrs={"rows": 8, "spellcheck": "false"}),
        help_text=gettext_lazy("With or without a row of heads. Lines of words alone become shots as well."),
    )
    file = forms.FileField(
        label=gettext_lazy("Or a file"),
        required=False,
        allow_empty_file=True,
        help_text=gettext_lazy("CSV or XLSX, up to 2 MB and a thousand rows."),
        widget=forms.ClearableFileInput(attrs={"accept": ".csv,.tsv,.txt,.xlsx,text/csv"}),
    )

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        upload, text = cleaned.get("file"), cleaned.get("text") or ""
        field = "file" if upload else "text"
        try:
            cleaned["table"] = _table_of(upload) if upload else split_table(text)
        except TableTooBig as error:
            limits = {"rows": MOST_ROWS - 1, "columns": MOST_COLUMNS}
            self.add_error(field, str(_TOO_BIG[error.args[0]]) % limits)
        except NoTable:
            self.add_error(field, _("This is no table that can be read: neither CSV nor an XLSX workbook."))
        else:
            if not cleaned["table"]:
                self.add_error(field, _("There is nothing in it."))
        return cleaned

    @property
    def table(self) -> Table:
        found: Table = self.cleaned_data["table"]
        return found


def _table_of(upload: UploadedFile[bytes]) -> Table:
    if (upload.size or 0) > MOST_BYTES:
        raise TableTooBig("letters")
    head = upload.read(4)
    upload.seek(0)
    return read_workbook(upload) if is_workbook(head) else split_table(decoded(upload.read()))


def chosen_columns(data: Any) -> dict[int, Column | None]:
    """Return what was chosen for the columns of a preview: fields "col-0", "col-1" and so on."""
    found: dict[int, Column | None] = {}
    for name, value in data.items():
        place = name.removeprefix("col-")
        if place != name and place.isdecimal() and len(place) < 4:
            found[int(place)] = Column(value) if value in set(Column) else None
    return found


def mended_cells(data: Any) -> dict[tuple[int, int], str]:
    """Return the cells that were typed anew in a preview: fields "cell-3-0"."""
    found: dict[tuple[int, int], str] = {}
    for name, value in data.items():
        parts = name.split("-")
        if len(parts) == 3 and parts[0] == "cell" and all(p.isdecimal() and len(p) < 6 for p in parts[1:]):
            found[int(parts[1]), int(parts[2])] = value[:12_000]
    return found


def said_of_preview(data: Any) -> dict[str, Any]:
    """Return the settings of a preview that was looked at, as `core.preview` takes them."""
    return {
        "has_head": "head" in data,
        "chosen": chosen_columns(data),
        "mended": mended_cells(data),
        "adds": data.get("listed") == "add",
        "blanks_empty": "lines" not in data,
    }


class TemplateForm(RecordForm):
    """The name of a template; the studio has each once."""

    keeps_parts = forms.BooleanField(
        label=gettext_lazy("Keep products, outfits and people"),
        required=False,
        help_text=gettext_lazy("For a client who comes back. Without it the list fits any shoot."),
    )

    class Meta:
        model = ShotTemplate
        fields = ("name", "note")

    def clean_name(self) -> str:
        name = " ".join(self.cleaned_data["name"].split())
        taken = ShotTemplate.objects.of_studio(self.instance.studio).exclude(pk=self.instance.pk).filter(name=name)
        if taken.exists():
            raise forms.ValidationError(_("There is a template of that name already."))
        return name

    @property
    def changes(self) -> dict[str, Any]:
        return {name: value for name, value in super().changes.items() if name != "keeps_parts"}
