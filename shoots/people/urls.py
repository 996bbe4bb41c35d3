"""Paths of clients, contacts, crew and talent."""

from django.urls import path

from shoots.people import views

urlpatterns = [
    path("people/", views.people, name="people"),
    path("people/new/", views.person_new, name="person_new"),
    path("people/<int:pk>/", views.person_detail, name="person_detail"),
    path("people/<int:pk>/edit/", views.person_edit, name="person_edit"),
    path("people/<int:pk>/put-away/", views.person_put_away, name="person_put_away"),
    path("people/clients/new/", views.client_new, name="client_new"),
    path("people/clients/<int:pk>/", views.client_detail, name="client_detail"),
    path("people/clients/<int:pk>/edit/", views.client_edit, name="client_edit"),
    path("people/clients/<int:pk>/put-away/", views.client_put_away, name="client_put_away"),
    path("people/clients/<int:pk>/contacts/new/", views.contact_new, name="contact_new"),
    path("people/contacts/<int:pk>/", views.contact_edit, name="contact_edit"),
    path("people/contacts/<int:pk>/remove/", views.contact_remove, name="contact_remove"),
]
