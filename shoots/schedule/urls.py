"""Paths of a day's plan, and of what the days ask of batteries and hands."""

from django.urls import path

from shoots.schedule import views

urlpatterns = [
    path("shoots/<str:code>/care/", views.care_detail, name="care_detail"),
    path("shoots/<str:code>/care/packed/", views.batteries_pack, name="batteries_pack"),
    path("shoots/<str:code>/care/hands/", views.hands_add, name="hands_add"),
    path("shoots/<str:code>/days/<int:pk>/plan/", views.day_plan, name="day_plan"),
    path("shoots/<str:code>/days/<int:pk>/plan/change/", views.plan_change, name="plan_change"),
    path("shoots/<str:code>/days/<int:pk>/plan/draft/", views.plan_draft, name="plan_draft"),
    path("shoots/<str:code>/days/<int:pk>/plan/times/", views.plan_times, name="plan_times"),
    path("shoots/<str:code>/days/<int:pk>/plan/calls/", views.plan_calls, name="plan_calls"),
    path("shoots/<str:code>/days/<int:pk>/plan/add/", views.block_add, name="block_add"),
    path("shoots/<str:code>/days/<int:pk>/plan/<int:block>/", views.block_edit, name="block_edit"),
    path("shoots/<str:code>/days/<int:pk>/plan/<int:block>/remove/", views.block_remove, name="block_remove"),
]
