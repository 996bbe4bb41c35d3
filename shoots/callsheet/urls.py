"""Paths of call sheets: the studio's pages, and what a link opens."""

from django.urls import path

from shoots.callsheet import views

urlpatterns = [
    path("shoots/<str:code>/call-sheet/", views.callsheet_list, name="callsheet_list"),
    path("shoots/<str:code>/call-sheet/<int:pk>/", views.callsheet_preview, name="callsheet_preview"),
    path("shoots/<str:code>/call-sheet/<int:pk>/issue/", views.callsheet_issue, name="callsheet_issue"),
    path("shoots/<str:code>/call-sheet/copies/<int:pk>/has-it/", views.copy_confirm, name="copy_confirm"),
    path("call-sheet/<str:token>/", views.client_callsheet, name="client_callsheet"),
    path("call-sheet/<str:token>/pdf/", views.client_callsheet_pdf, name="client_callsheet_pdf"),
    path("call-sheet/<str:token>/has-it/", views.client_callsheet_confirm, name="client_callsheet_confirm"),
]
