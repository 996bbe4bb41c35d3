"""Paths of the bag; `kind` is a section's word of `kit.models.SECTIONS`."""

from django.urls import path

from shoots.kit import views

urlpatterns = [
    path("bag/", views.kit_list, name="kit_list"),
    path("bag/<slug:kind>/new/", views.kit_new, name="kit_new"),
    path("bag/<slug:kind>/<int:pk>/", views.kit_edit, name="kit_edit"),
    path("bag/<slug:kind>/<int:pk>/put-away/", views.kit_put_away, name="kit_put_away"),
    path("bag/<slug:kind>/starters/<slug:key>/", views.kit_starter, name="kit_starter"),
]
