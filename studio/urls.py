"""Root URLs: the app's own, the sign-in library's, and a health check."""

from django.urls import include, path

from studio import views

urlpatterns = [
    path("healthy", views.healthy, name="healthy"),
    path("sign-in/", include("allauth.account.urls")),
    path("", include("shoots.urls")),
]

handler400 = "studio.views.bad_request"
handler403 = "studio.views.not_allowed"
handler404 = "studio.views.not_found"
handler500 = "studio.views.server_error"
