"""Root URLs: the app's own and a health check. The sign-in library's pages are named in shoots/accounts/urls.py."""

from django.urls import include, path

from studio import views

urlpatterns = [
    path("healthy", views.healthy, name="healthy"),
    path("", include("shoots.urls")),
]

handler400 = "studio.views.bad_request"
handler403 = "studio.views.not_allowed"
handler404 = "studio.views.not_found"
handler500 = "studio.views.server_error"
