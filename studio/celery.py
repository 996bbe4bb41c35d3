"""The Celery app and its timetable, kept in code so that nothing has to be set up."""

import os

from celery import Celery

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")

app = Celery("studio")
app.config_from_object("django.conf:settings", namespace="CELERY")
app.autodiscover_tasks(["shoots"])
app.conf.beat_schedule = {
    # Expired leases come back within 30 seconds (docs/jobs.md); the broker's own time-out is far longer.
    "outbox": {"task": "outbox.sweep", "schedule": 10.0, "options": {"expires": 10}},
    "mood": {"task": "mood.sweep", "schedule": 86400.0, "options": {"expires": 3600}},
    "reminders": {"task": "desk.remind", "schedule": 300.0, "options": {"expires": 300}},
}
