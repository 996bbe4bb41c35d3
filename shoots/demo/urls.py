"""URLs of the demo."""

from django.urls import path

from shoots.demo import views

urlpatterns = [path("demo/set-aside/", views.demo_set_aside, name="demo_set_aside")]
