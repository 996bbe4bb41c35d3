"""Paths of what was promised; they lie under the shots, whose section they belong to."""

from django.urls import path

from shoots.coverage import views

urlpatterns = [
    path("shoots/<str:code>/shots/promised/", views.coverage_detail, name="coverage_detail"),
    path("shoots/<str:code>/shots/promised/new/", views.promise_new, name="promise_new"),
    path("shoots/<str:code>/shots/promised/leave-out/", views.promise_leave_out, name="promise_leave_out"),
    path("shoots/<str:code>/shots/promised/missing/", views.missing_take_up, name="missing_take_up"),
    path("shoots/<str:code>/shots/promised/<int:pk>/", views.promise_edit, name="promise_edit"),
    path("shoots/<str:code>/shots/promised/<int:pk>/take-back/", views.promise_take_back, name="promise_take_back"),
]
