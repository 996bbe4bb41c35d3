"""Register: every slice's tasks, for Celery."""

import shoots.agreement.tasks
import shoots.callsheet.tasks
import shoots.delivery.tasks
import shoots.desk.tasks
import shoots.documents.tasks
import shoots.invoices.tasks
import shoots.mood.tasks
import shoots.outbox.tasks
import shoots.quotes.tasks
import shoots.rights.tasks  # noqa: F401
