"""Paths of the rate card and of quotes."""

from django.urls import path

from shoots.quotes.views import card, client, editor, standing

_quote = "shoots/<str:code>/quote/<int:pk>/"

urlpatterns = [
    path("rates/", card.rate_list, name="rate_list"),
    path("rates/begin/", card.rate_begin, name="rate_begin"),
    path("rates/new/", card.rate_new, name="rate_new"),
    path("rates/<int:pk>/", card.rate_edit, name="rate_edit"),
    path("rates/<int:pk>/move/", card.rate_move, name="rate_move"),
    path("rates/<int:pk>/away/", card.rate_away, name="rate_away"),
    path("shoots/<str:code>/quote/", standing.quote_list, name="quote_list"),
    path("shoots/<str:code>/quote/start/", standing.quote_start, name="quote_start"),
    path(_quote, standing.quote_detail, name="quote_detail"),
    path(f"{_quote}preview/", standing.quote_preview, name="quote_preview"),
    path(f"{_quote}send/", standing.quote_send, name="quote_send"),
    path(f"{_quote}answer/", standing.quote_answer, name="quote_answer"),
    path(f"{_quote}close-link/", standing.quote_close_link, name="quote_close_link"),
    path(f"{_quote}lines/", editor.quote_lines, name="quote_lines"),
    path(f"{_quote}lines/new/", editor.quote_line_new, name="quote_line_new"),
    path(f"{_quote}lines/<int:line_pk>/", editor.quote_line_edit, name="quote_line_edit"),
    path(f"{_quote}add/", editor.quote_add, name="quote_add"),
    path(f"{_quote}suggestion/", editor.quote_suggestion, name="quote_suggestion"),
    path(f"{_quote}edit/", editor.quote_edit, name="quote_edit"),
    path(f"{_quote}vat/", editor.quote_tax, name="quote_tax"),
    path(f"{_quote}licence-fee/", editor.quote_licence_fee, name="quote_licence_fee"),
    path(f"{_quote}discard/", editor.quote_discard, name="quote_discard"),
    path("quote/<str:token>/", client.client_quote, name="client_quote"),
    path("quote/<str:token>/accept/", client.client_quote_accept, name="client_quote_accept"),
    path("quote/<str:token>/decline/", client.client_quote_decline, name="client_quote_decline"),
    path("quote/<str:token>/paper/<str:kind>/", client.client_quote_paper, name="client_quote_paper"),
]
