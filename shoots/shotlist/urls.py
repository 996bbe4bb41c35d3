"""Paths of the shot list."""

from django.urls import path

from shoots.shotlist import views

urlpatterns = [
    path("shoots/<str:code>/shots/", views.shot_list, name="shot_list"),
    path("shoots/<str:code>/shots/add/", views.shot_add, name="shot_add"),
    path("shoots/<str:code>/shots/order/", views.shot_order, name="shot_order"),
    path("shoots/<str:code>/shots/<int:pk>/", views.shot_edit, name="shot_edit"),
    path("shoots/<str:code>/shots/<int:pk>/duplicate/", views.shot_duplicate, name="shot_duplicate"),
    path("shoots/<str:code>/shots/<int:pk>/remove/", views.shot_remove, name="shot_remove"),
    path("shoots/<str:code>/shots/<int:pk>/got/", views.shot_got, name="shot_got"),
    path("shoots/<str:code>/shots/<int:pk>/move/", views.shot_move, name="shot_move"),
]
