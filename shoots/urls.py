"""Register: every slices URLs."""

from django.urls import include, path

urlpatterns = [
    path("", include("shoots.documents.urls")),
    path("", include("shoots.kit.urls")),
    path("", include("shoots.places.urls")),
    path("", include("shoots.people.urls")),
    path("", include("shoots.accounts.urls")),
    path("", include("shoots.brief.urls")),
    path("", include("shoots.mood.urls")),
    path("", include("shoots.shotlist.urls")),
    path("", include("shoots.coverage.urls")),
    path("", include("shoots.lighting.urls")),
    path("", include("shoots.call.urls")),
    path("", include("shoots.shoot.urls")),
    path("", include("shoots.schedule.urls")),
    path("", include("shoots.callsheet.urls")),
    path("", include("shoots.invoices.urls")),
    path("", include("shoots.rights.urls")),
    path("", include("shoots.quotes.urls")),
    path("", include("shoots.agreement.urls")),
    path("", include("shoots.delivery.urls")),
    path("", include("shoots.outbox.urls")),
    path("", include("shoots.demo.urls")),
    # Last, because its shoots/<code>/ would also match shoots/new/.
    path("", include("shoots.desk.urls")),
]
