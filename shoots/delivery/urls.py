"""URLs of finished pictures and their delivery."""

from django.urls import path

from shoots.delivery import views

urlpatterns = [
    path("shoots/<str:code>/pictures/", views.picture_list, name="picture_list"),
    path("shoots/<str:code>/pictures/moods/", views.picture_moods, name="picture_moods"),
    path("shoots/<str:code>/pictures/measure/", views.picture_measure, name="picture_measure"),
    path("shoots/<str:code>/pictures/add/", views.picture_add, name="picture_add"),
    path("shoots/<str:code>/pictures/<int:pk>/preview/", views.picture_preview, name="picture_preview"),
    path("shoots/<str:code>/pictures/<int:pk>/file/", views.picture_file, name="picture_file"),
    path("shoots/<str:code>/pictures/<int:pk>/tie/", views.picture_tie, name="picture_tie"),
    path("shoots/<str:code>/pictures/<int:pk>/withdraw/", views.picture_withdraw, name="picture_withdraw"),
    path("shoots/<str:code>/deliveries/new/", views.delivery_new, name="delivery_new"),
    path("shoots/<str:code>/deliveries/<int:pk>/", views.delivery_detail, name="delivery_detail"),
    path("shoots/<str:code>/deliveries/<int:pk>/close/", views.delivery_close, name="delivery_close"),
    path("pictures/<str:token>/", views.client_delivery, name="client_delivery"),
    path("pictures/<str:token>/all/", views.client_archive, name="client_archive"),
    path("pictures/<str:token>/<int:pk>/preview/", views.client_preview, name="client_preview"),
    path("pictures/<str:token>/<int:pk>/", views.client_picture, name="client_picture"),
]
