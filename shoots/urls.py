"""Register: every slices URLs."""

from django.urls import include, path

urlpatterns = [
    path("", include("shoots.accounts.urls")),
    path("", include("shoots.brief.urls")),
    path("", include("shoots.shotlist.urls")),
    path("", include("shoots.shoot.urls")),
    path("", include("shoots.invoices.urls")),
    path("", include("shoots.rights.urls")),
    path("", include("shoots.quotes.urls")),
]
