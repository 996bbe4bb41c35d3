"""Paths of setups of light."""

from django.urls import path

from shoots.lighting import views

SETUP = "shoots/<str:code>/light/<int:pk>/"

urlpatterns = [
    path("shoots/<str:code>/light/", views.setup_list, name="setup_list"),
    path("shoots/<str:code>/light/new/", views.setup_new, name="setup_new"),
    path(SETUP, views.setup_detail, name="setup_detail"),
    path(SETUP + "edit/", views.setup_edit, name="setup_edit"),
    path(SETUP + "wishes/", views.setup_wishes, name="setup_wishes"),
    path(SETUP + "found/", views.setup_found, name="setup_found"),
    path(SETUP + "duplicate/", views.setup_duplicate, name="setup_duplicate"),
    path(SETUP + "remove/", views.setup_remove, name="setup_remove"),
    path(SETUP + "move/", views.setup_move, name="setup_move"),
    path(SETUP + "lights/new/", views.lamp_new, name="lamp_new"),
    path(SETUP + "lights/<int:lamp_pk>/", views.lamp_edit, name="lamp_edit"),
    path(SETUP + "lights/<int:lamp_pk>/place/", views.lamp_place, name="lamp_place"),
    path(SETUP + "lights/<int:lamp_pk>/remove/", views.lamp_remove, name="lamp_remove"),
    path(SETUP + "readings/new/", views.reading_new, name="reading_new"),
    path(SETUP + "readings/<int:reading_pk>/remove/", views.reading_remove, name="reading_remove"),
]
