"""URLs of invoices."""

from django.urls import path

from shoots.invoices import views

urlpatterns = [
    path("money/", views.money, name="money"),
    path("shoots/<str:code>/invoices/", views.invoice_list, name="invoice_list"),
    path("shoots/<str:code>/invoices/draft/", views.invoice_draft, name="invoice_draft"),
    path("shoots/<str:code>/invoices/<int:pk>/", views.invoice_detail, name="invoice_detail"),
    path("shoots/<str:code>/invoices/<int:pk>/issue/", views.invoice_issue, name="invoice_issue"),
    path("shoots/<str:code>/invoices/<int:pk>/discard/", views.invoice_discard, name="invoice_discard"),
    path("shoots/<str:code>/invoices/<int:pk>/send/", views.invoice_send, name="invoice_send"),
    path("shoots/<str:code>/invoices/<int:pk>/payment/", views.invoice_payment, name="invoice_payment"),
    path("shoots/<str:code>/invoices/<int:pk>/credit/", views.invoice_credit, name="invoice_credit"),
]
