"""Register: every slice's models, for Django. A test fails when one is missing."""

import shoots.accounts.models
import shoots.agreement.models
import shoots.brief.models
import shoots.call.models
import shoots.callsheet.models
import shoots.coverage.models
import shoots.delivery.models
import shoots.desk.models
import shoots.documents.models
import shoots.invoices.models
import shoots.kit.models
import shoots.lighting.models
import shoots.links.models
import shoots.members.models
import shoots.mood.models
import shoots.outbox.models
import shoots.people.models
import shoots.places.models
import shoots.quotes.models
import shoots.rights.models
import shoots.schedule.models
import shoots.shoot.models
import shoots.shotlist.models
import shoots.trail.models  # noqa: F401
