"""Paths of editing the brief and its moods; the brief's own page belongs to `agreement`, which shows more."""

from django.urls import path

from shoots.brief import views

urlpatterns = [
    path("shoots/<str:code>/brief/edit/", views.brief_edit, name="brief_edit"),
    path("shoots/<str:code>/brief/moods/new/", views.mood_new, name="mood_new"),
    path("shoots/<str:code>/brief/moods/<int:pk>/", views.mood_edit, name="mood_edit"),
    path("shoots/<str:code>/brief/moods/<int:pk>/remove/", views.mood_remove, name="mood_remove"),
    path("shoots/<str:code>/brief/moods/<int:pk>/move/", views.mood_move, name="mood_move"),
]
