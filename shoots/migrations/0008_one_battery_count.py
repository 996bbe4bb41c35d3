import django.core.validators
import django.db.models.deletion
from django.db import migrations, models
from django.utils import timezone


def counts_to_rows(apps, schema_editor):
    """Let what counted so far be the one number: the light's own where it was typed, else that of its batteries."""
    batteries, lamps = apps.get_model("shoots", "Battery"), apps.get_model("shoots", "Lamp")
    now = timezone.now()
    for lamp in lamps.objects.order_by("pk").iterator():
        rows = list(batteries.objects.filter(lamp_id=lamp.pk, put_away_at=None).order_by("pk"))
        in_rows = sum(row.quantity for row in rows)
        count = lamp.batteries if lamp.batteries is not None else (in_rows if rows else None)
        if not lamp.full_pops and rows:
            lamp.full_pops = min(row.full_pops for row in rows)
        if count is not None:
            kind = rows[0] if rows else batteries(studio_id=lamp.studio_id, name=f"Battery of {lamp.name}"[:100])
            if rows and count != in_rows:
                kind.note = f"{kind.note} The light said {count}, the bag {in_rows}.".strip()[:200]
            kind.quantity = max(1, count)
            if count == 0:
                kind.put_away_at = now
            kind.save()
            lamp.battery = kind
            for other in rows[1:]:
                other.note = f"{other.note} Counted with {kind.name}.".strip()[:200]
                other.put_away_at = now
                other.save()
        lamp.save()
    if schema_editor.connection.vendor == "postgresql":
        # Its checks wait for the end of the transaction, and would keep the columns below from being dropped.
        schema_editor.execute("SET CONSTRAINTS ALL IMMEDIATE")


def rows_to_counts(apps, schema_editor):
    for lamp in apps.get_model("shoots", "Lamp").objects.exclude(battery=None).select_related("battery").iterator():
        kind = lamp.battery
        lamp.batteries = 0 if kind.put_away_at else kind.quantity
        lamp.save()
        if kind.lamp_id is None:
            kind.lamp_id, kind.full_pops = lamp.pk, lamp.full_pops or 400
            kind.save()
    if schema_editor.connection.vendor == "postgresql":
        schema_editor.execute("SET CONSTRAINTS ALL IMMEDIATE")


class Migration(migrations.Migration):

    dependencies = [
        ('shoots', '0007_light_kit'),
    ]

    operations = [
        migrations.AddField(
            model_name='lamp',
            name='battery',
            field=models.ForeignKey(blank=True, help_text='Lights that take the same one share what is packed.', null=True, on_delete=django.db.models.deletion.SET_NULL, related_name='lamps', to='shoots.battery', verbose_name='battery that it takes'),
        ),
        migrations.AlterField(
            model_name='lamp',
            name='full_pops',
            field=models.PositiveIntegerField(blank=True, help_text='From one charge, new and at 20 °C, as the manual says.', null=True, validators=[django.core.validators.MinValueValidator(1)], verbose_name='full-power flashes from one battery'),
        ),
        migrations.RunPython(counts_to_rows, rows_to_counts),
        migrations.RemoveField(
            model_name='battery',
            name='full_pops',
        ),
        migrations.RemoveField(
            model_name='battery',
            name='lamp',
        ),
        migrations.RemoveField(
            model_name='lamp',
            name='batteries',
        ),
    ]
