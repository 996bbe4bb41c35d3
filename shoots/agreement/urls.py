"""Paths of the brief's page, its versions, and the client's look at one."""

from django.urls import path

from shoots.agreement.views import client, versions

_brief = "shoots/<str:code>/brief/"
_version = f"{_brief}versions/<int:pk>/"

urlpatterns = [
    path(_brief, versions.brief_detail, name="brief_detail"),
    path(f"{_brief}send/", versions.brief_send, name="brief_send"),
    path(f"{_brief}preview/", versions.brief_preview, name="brief_preview"),
    path(_version, versions.brief_version, name="brief_version"),
    path(f"{_version}answer/", versions.brief_answer, name="brief_answer"),
    path(f"{_version}withdraw/", versions.brief_withdraw, name="brief_withdraw"),
    path("brief/<str:token>/", client.client_brief, name="client_brief"),
    path("brief/<str:token>/approve/", client.client_brief_approve, name="client_brief_approve"),
    path("brief/<str:token>/correct/", client.client_brief_correct, name="client_brief_correct"),
    path("brief/<str:token>/paper/<str:kind>/", client.client_brief_paper, name="client_brief_paper"),
]
