"""Register: every slice's models, for Django. A test fails when one is missing."""

import shoots.members.models  # noqa: F401
import shoots.trail.models  # noqa: F401
import shoots.outbox.models  # noqa: F401
import shoots.documents.models  # noqa: F401
import shoots.links.models  # noqa: F401
import shoots.accounts.models  # noqa: F401
import shoots.kit.models  # noqa: F401
import shoots.people.models  # noqa: F401
import shoots.places.models  # noqa: F401
import shoots.shoot.models  # noqa: F401
import shoots.brief.models  # noqa: F401
import shoots.lighting.models  # noqa: F401
import shoots.shotlist.models  # noqa: F401
import shoots.call.models  # noqa: F401
import shoots.rights.models  # noqa: F401
import shoots.schedule.models  # noqa: F401
import shoots.quotes.models  # noqa: F401
import shoots.callsheet.models  # noqa: F401
import shoots.invoices.models  # noqa: F401
import shoots.delivery.models  # noqa: F401
import shoots.desk.models  # noqa: F401
