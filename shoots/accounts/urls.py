"""Paths of sign-in, set-up, members and invitations.

The sign-in library's own URL list is left out on purpose: only these of its pages are wanted, and each carries a rule.
Their names are the library's, because it looks them up itself.
"""

from django.urls import path, re_path

from shoots.accounts import views

urlpatterns = [
    path("sign-in/login/", views.sign_in, name="account_login"),
    path("sign-in/logout/", views.sign_out, name="account_logout"),
    path("sign-in/inactive/", views.inactive, name="account_inactive"),
    path("sign-in/password/change/", views.password_change, name="account_change_password"),
    path("sign-in/password/reset/", views.password_reset, name="account_reset_password"),
    path("sign-in/password/reset/done/", views.password_reset_done, name="account_reset_password_done"),
    path(
        "sign-in/password/reset/key/done/",
        views.password_reset_from_key_done,
        name="account_reset_password_from_key_done",
    ),
    re_path(
        r"^sign-in/password/reset/key/(?P<uidb36>[0-9A-Za-z]+)-(?P<key>.+)/$",
        views.password_reset_from_key,
        name="account_reset_password_from_key",
    ),
    path("begin/", views.studio_begin, name="studio_begin"),
    path("studio/", views.studio_settings, name="studio_settings"),
    path("studios/", views.studio_list, name="studio_list"),
    path("studios/<int:pk>/", views.studio_choose, name="studio_choose"),
    path("members/", views.member_list, name="member_list"),
    path("members/invite/", views.member_invite, name="member_invite"),
    path("members/<int:pk>/role/", views.member_role, name="member_role"),
    path("members/<int:pk>/remove/", views.member_remove, name="member_remove"),
    path("members/invitations/<int:pk>/withdraw/", views.invitation_withdraw, name="invitation_withdraw"),
    path("join/<str:token>/", views.invitation_accept, name="invitation_accept"),
]
