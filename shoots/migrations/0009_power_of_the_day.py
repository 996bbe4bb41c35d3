import django.core.validators
import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('shoots', '0008_one_battery_count'),
    ]

    operations = [
        migrations.AddField(
            model_name='booking',
            name='holds_lights',
            field=models.BooleanField(default=False, help_text='One pair of hands for one stand.', verbose_name='holds a light in the wind'),
        ),
        migrations.AddField(
            model_name='shot',
            name='frames',
            field=models.PositiveIntegerField(blank=True, help_text='For the batteries. Empty: its even part of what its setup plans.', null=True, validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(100000)], verbose_name='planned frames'),
        ),
        migrations.AlterField(
            model_name='setup',
            name='frames',
            field=models.PositiveIntegerField(blank=True, help_text='All shots with this light together; what its shots say counts where that is more.', null=True, validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(100000)], verbose_name='planned frames'),
        ),
        migrations.CreateModel(
            name='PackedBattery',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('created_at', models.DateTimeField(auto_now_add=True)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('quantity', models.PositiveSmallIntegerField(validators=[django.core.validators.MaxValueValidator(500)], verbose_name='packed')),
                ('battery', models.ForeignKey(editable=False, on_delete=django.db.models.deletion.CASCADE, related_name='+', to='shoots.battery')),
                ('shoot', models.ForeignKey(editable=False, on_delete=django.db.models.deletion.CASCADE, related_name='+', to='shoots.shoot')),
                ('studio', models.ForeignKey(editable=False, on_delete=django.db.models.deletion.CASCADE, related_name='+', to='shoots.studio')),
            ],
            options={
                'constraints': [models.UniqueConstraint(fields=('shoot', 'battery'), name='schedule_packed_once')],
            },
        ),
    ]
