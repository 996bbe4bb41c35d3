"""Paths of shoots: the list, new, edit, dates and people."""

from django.urls import path

from shoots.shoot import views

urlpatterns = [
    path("shoots/", views.shoot_list, name="shoot_list"),
    path("shoots/new/", views.shoot_new, name="shoot_new"),
    path("shoots/<slug:code>/edit/", views.shoot_edit, name="shoot_edit"),
    path("shoots/<slug:code>/put-away/", views.shoot_put_away, name="shoot_put_away"),
    path("shoots/<slug:code>/take-back/", views.shoot_take_back, name="shoot_take_back"),
    path("shoots/<slug:code>/delete/", views.shoot_delete, name="shoot_delete"),
    path("shoots/<slug:code>/dates/", views.shoot_dates, name="shoot_dates"),
    path("shoots/<slug:code>/dates/days/new/", views.day_new, name="day_new"),
    path("shoots/<slug:code>/dates/days/<int:pk>/", views.day_edit, name="day_edit"),
    path("shoots/<slug:code>/dates/days/<int:pk>/<slug:step>/", views.day_step, name="day_step"),
    path("shoots/<slug:code>/dates/hold/<slug:kind>/", views.booking_new, name="booking_new"),
    path("shoots/<slug:code>/dates/bookings/<int:pk>/", views.booking_edit, name="booking_edit"),
    path("shoots/<slug:code>/dates/bookings/<int:pk>/<slug:step>/", views.booking_step, name="booking_step"),
    path("shoots/<slug:code>/dates/facts/new/", views.fact_new, name="fact_new"),
    path("shoots/<slug:code>/dates/facts/<int:pk>/strike/", views.fact_strike, name="fact_strike"),
]
