"""Paths of moods, their references and the mood sheet."""

from django.urls import path

from shoots.mood import views

urlpatterns = [
    path("shoots/<str:code>/moods/", views.mood_list, name="mood_list"),
    path("shoots/<str:code>/moods/sheet/", views.mood_sheet, name="mood_sheet"),
    path("shoots/<str:code>/moods/share/", views.mood_share, name="mood_share"),
    path("shoots/<str:code>/moods/share/<int:pk>/close/", views.mood_share_close, name="mood_share_close"),
    path("shoots/<str:code>/moods/<int:pk>/", views.mood_detail, name="mood_detail"),
    path("shoots/<str:code>/moods/<int:pk>/targets/", views.mood_targets, name="mood_targets"),
    path("shoots/<str:code>/moods/<int:pk>/targets/clear/", views.mood_targets_clear, name="mood_targets_clear"),
    path("shoots/<str:code>/references/add/", views.reference_add, name="reference_add"),
    path("shoots/<str:code>/references/<int:pk>/", views.reference_edit, name="reference_edit"),
    path("shoots/<str:code>/references/<int:pk>/preview/", views.reference_preview, name="reference_preview"),
    path("shoots/<str:code>/references/<int:pk>/move/", views.reference_move, name="reference_move"),
    path("shoots/<str:code>/references/<int:pk>/remove/", views.reference_remove, name="reference_remove"),
    path("mood/<str:token>/", views.client_mood, name="client_mood"),
    path("mood/<str:token>/pdf/", views.client_mood_pdf, name="client_mood_pdf"),
    path("mood/<str:token>/<int:pk>/preview/", views.client_reference_preview, name="client_reference_preview"),
]
