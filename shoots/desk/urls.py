"""Paths of today, of a shoot's overview and history, and of search."""

from django.urls import path

from shoots.desk import views

urlpatterns = [
    path("", views.home, name="home"),
    path("search/", views.search, name="search"),
    path("shoots/<str:code>/", views.shoot_detail, name="shoot_detail"),
    path("shoots/<str:code>/history/", views.shoot_history, name="shoot_history"),
]
