"""Paths of calls."""

from django.urls import path

from shoots.call import views

urlpatterns = [
    path("calls/", views.call_list, name="call_list"),
    path("calls/new/", views.call_new, name="call_new"),
    path("calls/<int:pk>/", views.call_detail, name="call_detail"),
    path("calls/<int:pk>/save/", views.call_save, name="call_save"),
    path("calls/<int:pk>/take-up/", views.call_take_up, name="call_take_up"),
    path("calls/<int:pk>/delete/", views.call_delete, name="call_delete"),
    path("calls/<int:pk>/drafts/plain/", views.draft_accept_plain, name="draft_accept_plain"),
    path("calls/<int:pk>/drafts/<int:draft_pk>/edit/", views.draft_edit, name="draft_edit"),
    path("calls/<int:pk>/drafts/<int:draft_pk>/<slug:step>/", views.draft_step, name="draft_step"),
    path("shoots/<slug:code>/call/", views.call_of_shoot, name="call_of_shoot"),
]
