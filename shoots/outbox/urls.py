"""Paths of outgoing mail."""

from django.urls import path

from shoots.outbox import views

urlpatterns = [
    path("mail/", views.mail_list, name="mail_list"),
    path("mail/<int:pk>/", views.mail_detail, name="mail_detail"),
    path("mail/jobs/<int:pk>/again/", views.job_again, name="job_again"),
]
