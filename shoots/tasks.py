"""Register: every slice's tasks, for Celery."""

import shoots.documents.tasks  # noqa: F401
import shoots.outbox.tasks  # noqa: F401
