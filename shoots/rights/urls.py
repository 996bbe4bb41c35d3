"""Paths of usage and licences."""

from django.urls import path

from shoots.rights import views

urlpatterns = [
    path("licences/", views.licences, name="licences"),
    path("rates/usage/", views.factor_list, name="factor_list"),
    path("shoots/<str:code>/licence/usage/", views.usage_edit, name="usage_edit"),
    path("shoots/<str:code>/licence/", views.licence_list, name="licence_list"),
    path("shoots/<str:code>/licence/<int:pk>/end/", views.licence_end, name="licence_end"),
]
