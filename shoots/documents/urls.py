"""The path of issued documents."""

from django.urls import path

from shoots.documents import views

urlpatterns = [path("documents/<int:pk>/", views.document_pdf, name="document_pdf")]
