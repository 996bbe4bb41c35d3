"""Paths of places and spots."""

from django.urls import path

from shoots.places import views

urlpatterns = [
    path("places/", views.place_list, name="place_list"),
    path("places/new/", views.place_new, name="place_new"),
    path("places/<int:pk>/", views.place_detail, name="place_detail"),
    path("places/<int:pk>/edit/", views.place_edit, name="place_edit"),
    path("places/<int:pk>/permission/", views.place_permission, name="place_permission"),
    path("places/<int:pk>/put-away/", views.place_put_away, name="place_put_away"),
    path("places/<int:pk>/spots/new/", views.spot_new, name="spot_new"),
    path("places/spots/<int:pk>/", views.spot_edit, name="spot_edit"),
    path("places/spots/<int:pk>/remove/", views.spot_remove, name="spot_remove"),
]
