"""Sign-in, the first set-up, the studio's own page, its members, and the door for those who are invited."""

from __future__ import annotations

from allauth.account import views as library
from django.contrib import messages
from django.contrib.auth import login
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_GET, require_POST, require_safe

from shoots.accounts import actions, queries
from shoots.accounts.access import by_invitation
from shoots.accounts.adapters import CHOSEN_STUDIO
from shoots.accounts.forms import BeginForm, InviteForm, JoinForm, RoleForm, StudioForm, role_choices_of
from shoots.accounts.models import Invitation
from shoots.members.access import MemberRequest, for_anyone, for_roles
from shoots.members.actions import EditedMeanwhile
from shoots.members.core import EVERYBODY, OWNER, Role
from shoots.members.models import Member
from shoots.pages.answers import posted
from shoots.trail import queries as trail

BACKEND = "allauth.account.auth_backends.AuthenticationBackend"


# --- sign-in: the library's views under our own rules ---------------------------------------------------------


def _answered(request: HttpRequest, response: HttpResponse) -> HttpResponse:
    """Give a refused form the status that says so; the library answers 200."""
    if request.method == "POST" and response.status_code == 200:
        response.status_code = 422
    return response


@for_anyone
def sign_in(request: HttpRequest) -> HttpResponse:
    """Sign in. Open to anyone by its nature; tries are limited by address and by account."""
    if queries.is_untouched():
        return redirect("studio_begin")
    response = library.login(request)
    if hasattr(response, "context_data"):
        response.context_data["can_begin"] = queries.can_begin()
    return _answered(request, response)


@for_anyone
def sign_out(request: HttpRequest) -> HttpResponse:
    """Sign out by POST; a GET asks. Harmless to anybody else."""
    return library.logout(request)


@for_anyone
def inactive(request: HttpRequest) -> HttpResponse:
    """Say that an account is switched off; shows no data."""
    return library.account_inactive(request)


@for_roles(EVERYBODY)
def password_change(request: MemberRequest) -> HttpResponse:
    return _answered(request, library.password_change(request))


@for_anyone
def password_reset(request: HttpRequest) -> HttpResponse:
    """Ask for a reset link. The answer is the same whether the address is known or not; tries are limited."""
    return _answered(request, library.password_reset(request))


@for_anyone
def password_reset_done(request: HttpRequest) -> HttpResponse:
    """Say that a link was sent if the address is known; shows no data."""
    return library.password_reset_done(request)


@for_anyone
@sensitive_post_parameters()
def password_reset_from_key(request: HttpRequest, uidb36: str, key: str) -> HttpResponse:
    """Set a new password; the key of the mail is what opens this."""
    return _answered(request, library.password_reset_from_key(request, uidb36=uidb36, key=key))


@for_anyone
def password_reset_from_key_done(request: HttpRequest) -> HttpResponse:
    """Say that the password was set; shows no data."""
    return library.password_reset_from_key_done(request)


# --- the first set-up -------------------------------------------------------------------------------------------


@for_anyone
@sensitive_post_parameters("password", "again")
def studio_begin(request: HttpRequest) -> HttpResponse:
    """Make the first studio. Open only until somebody has one of their own; afterwards it leads to the sign-in."""
    if not queries.can_begin():
        return redirect("account_login")
    user = request.user if request.user.is_authenticated else None
    form = BeginForm(posted(request), user=user)
    if request.method == "POST" and form.is_valid():
        typed = {name: value for name, value in form.cleaned_data.items() if name != "again"}
        try:
            member = actions.begin_studio(**{"owner_name": "", **typed}, user=user, now=timezone.now())
        except actions.AlreadyBegun:
            return redirect("account_login")
        login(request, member.user, backend=BACKEND)
        request.session[CHOSEN_STUDIO] = member.studio_id
        messages.success(request, _("Your studio is set up. The first call can come."))
        return redirect("/")
    context = {"form": form, "others_sign_in": user is None and not queries.is_untouched()}
    return render(request, "accounts/studio_begin.html", context, status=422 if form.is_bound else 200)


# --- the studio and its members ---------------------------------------------------------------------------------


@for_roles(OWNER)
def studio_settings(request: MemberRequest) -> HttpResponse:
    studio = request.studio
    form = StudioForm(posted(request), instance=studio)
    if request.method == "POST" and form.is_valid():
        try:
            actions.edit_studio(
                studio=studio,
                changes=form.changes,
                seen_version=form.seen_version,
                by=request.member,
                now=timezone.now(),
            )
        except EditedMeanwhile:
            studio.refresh_from_db()
            form.refuse_edited_meanwhile(current_version=studio.version)
        else:
            messages.success(request, _("Saved. Documents that were issued keep what they say."))
            return redirect("studio_settings")
    return render(
        request,
        "accounts/studio_settings.html",
        {"form": form, "trail": trail.history_of(studio, studio=request.studio)},
        status=422 if form.is_bound else 200,
    )


def _members_page(request: MemberRequest, *, form: InviteForm, status: int = 200) -> HttpResponse:
    page = queries.members_page(request.studio, now=timezone.now())
    return render(
        request,
        "accounts/member_list.html",
        {"page": page, "form": form, "roles": role_choices_of(request.member)},
        status=status,
    )


@require_safe
@for_roles(OWNER)
def member_list(request: MemberRequest) -> HttpResponse:
    return _members_page(request, form=InviteForm())


@require_POST
@for_roles(OWNER)
def member_invite(request: MemberRequest) -> HttpResponse:
    form = InviteForm(request.POST)
    if form.is_valid():
        data = form.cleaned_data
        try:
            actions.invite_member(
                studio=request.studio,
                email=data["email"],
                name=data["name"],
                role=Role(data["role"]),
                by=request.member,
                now=timezone.now(),
            )
        except actions.AlreadyMember:
            form.add_error("email", _("They are a member already."))
        except actions.AlreadyInvited:
            form.add_error("email", _("They have an invitation that is still open; withdraw it first."))
        else:
            messages.success(request, _("The invitation is on its way; it holds for fourteen days."))
            return redirect("member_list")
    return _members_page(request, form=form, status=422)


def _own_member(request: MemberRequest, pk: int) -> Member:
    return get_object_or_404(
        Member.objects.select_related("user", "studio"), pk=pk, studio=request.studio, left_at=None
    )


@require_POST
@for_roles(OWNER)
def member_role(request: MemberRequest, pk: int) -> HttpResponse:
    member = _own_member(request, pk)
    form = RoleForm(request.POST)
    if not form.is_valid():
        messages.error(request, _("That is no role."))
        return _members_page(request, form=InviteForm(), status=422)
    try:
        actions.change_role(
            member=member,
            role=Role(form.cleaned_data["role"]),
            seen_version=form.cleaned_data["version"],
            by=request.member,
            now=timezone.now(),
        )
    except actions.LastOwner:
        messages.error(request, _("The studio needs an owner: make somebody else one first."))
    except EditedMeanwhile:
        messages.error(request, _("Somebody changed this member in the meantime; look again before you do."))
    else:
        messages.success(request, _("%(name)s has the new role from now on.") % {"name": member.user})
    return redirect("member_list")


@require_POST
@for_roles(OWNER)
def member_remove(request: MemberRequest, pk: int) -> HttpResponse:
    member = _own_member(request, pk)
    try:
        actions.remove_member(member=member, by=request.member, now=timezone.now())
    except actions.LastOwner:
        messages.error(request, _("The studio needs an owner: make somebody else one first."))
    else:
        messages.success(request, _("%(name)s is no longer a member.") % {"name": member.user})
    return redirect("member_list")


@require_POST
@for_roles(OWNER)
def invitation_withdraw(request: MemberRequest, pk: int) -> HttpResponse:
    invitation = get_object_or_404(Invitation.objects.of_studio(request.studio), pk=pk)
    try:
        actions.withdraw_invitation(invitation=invitation, by=request.member, now=timezone.now())
    except actions.InvitationNotOpen:
        messages.info(request, _("It was no longer open."))
    else:
        messages.success(request, _("Withdrawn; its link no longer opens."))
    return redirect("member_list")


# --- those who are invited, and those who work in several studios ------------------------------------------------


@by_invitation
@sensitive_post_parameters("password")
def invitation_accept(request: HttpRequest, token: str, *, invitation: Invitation) -> HttpResponse:
    now = timezone.now()
    known = queries.user_invited(invitation)
    context = {"invitation": invitation, "studio": invitation.studio, "known": known}
    if not Invitation.objects.open(at=now).filter(pk=invitation.pk).exists():
        return render(request, "accounts/invitation_closed.html", context, status=410)
    is_them = known is not None and request.user == known
    form = JoinForm(
        request.POST if request.method == "POST" and known is None else None,
        email=invitation.email,
        initial={"name": invitation.name},
    )
    if request.method == "POST" and (is_them or (known is None and form.is_valid())):
        typed = {} if is_them else form.cleaned_data
        try:
            member = actions.accept_invitation(invitation=invitation, user=known, **typed, now=now)
        except actions.InvitationNotOpen:
            return redirect("invitation_accept", token=token)
        if not is_them:
            login(request, member.user, backend=BACKEND)
        request.session[CHOSEN_STUDIO] = member.studio_id
        messages.success(request, _("Welcome to %(studio)s.") % {"studio": member.studio})
        return redirect("home")
    return render(
        request,
        "accounts/invitation_accept.html",
        {**context, "form": form, "is_them": is_them},
        status=422 if form.is_bound else 200,
    )


@require_GET
@for_roles(EVERYBODY)
def studio_list(request: MemberRequest) -> HttpResponse:
    return render(request, "accounts/studio_list.html", {"places": queries.places_of(request.member.user)})


@require_POST
@for_roles(EVERYBODY)
def studio_choose(request: MemberRequest, pk: int) -> HttpResponse:
    place = get_object_or_404(Member, user=request.member.user, studio=pk, left_at=None)
    request.session[CHOSEN_STUDIO] = place.studio_id
    return redirect("home")
