"""Paths of setups of light."""

from django.urls import path

from shoots.lighting.views import aids, studio
from shoots.lighting.views import setups as views

SETUP = "shoots/<str:code>/light/<int:pk>/"

urlpatterns = [
    path("shoots/<str:code>/light/", views.setup_list, name="setup_list"),
    path("shoots/<str:code>/light/new/", views.setup_new, name="setup_new"),
    path("shoots/<str:code>/light/compare/", aids.setup_compare, name="setup_compare"),
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
    path(SETUP + "panels/new/", aids.panel_new, name="panel_new"),
    path(SETUP + "panels/<int:panel_pk>/", aids.panel_edit, name="panel_edit"),
    path(SETUP + "panels/<int:panel_pk>/place/", aids.panel_place, name="panel_place"),
    path(SETUP + "panels/<int:panel_pk>/remove/", aids.panel_remove, name="panel_remove"),
    path(SETUP + "under/", aids.setup_under, name="setup_under"),
    path(SETUP + "keep/", aids.setup_keep, name="setup_keep"),
    path("light/starts/", studio.start_list, name="start_list"),
    path("light/starts/<int:pk>/", studio.start_edit, name="start_edit"),
    path("light/starts/<int:pk>/remove/", studio.start_remove, name="start_remove"),
    path("light/meter/", studio.meter_list, name="meter_list"),
    path("light/meter/<int:pk>/withdraw/", studio.factor_withdraw, name="factor_withdraw"),
    path("light/conventions/", studio.light_conventions, name="light_conventions"),
    path(SETUP + "readings/new/", views.reading_new, name="reading_new"),
    path(SETUP + "readings/<int:reading_pk>/remove/", views.reading_remove, name="reading_remove"),
]
