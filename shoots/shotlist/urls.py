"""Paths of the shot list."""

from django.urls import path

from shoots.shotlist.views import many, parts, shots, tables, templates

urlpatterns = [
    path("shoots/<str:code>/shots/", shots.shot_list, name="shot_list"),
    path("shoots/<str:code>/shots/add/", shots.shot_add, name="shot_add"),
    path("shoots/<str:code>/shots/order/", shots.shot_order, name="shot_order"),
    path("shoots/<str:code>/shots/pick/", many.shot_pick, name="shot_pick"),
    path("shoots/<str:code>/shots/many/", many.shot_many, name="shot_many"),
    path("shoots/<str:code>/shots/many/changed/", many.shot_changed, name="shot_changed"),
    path("shoots/<str:code>/shots/many/undo/", many.shot_undo, name="shot_undo"),
    path("shoots/<str:code>/shots/many/remove/", many.shot_remove_many, name="shot_remove_many"),
    path("shoots/<str:code>/shots/table/", tables.shot_table, name="shot_table"),
    path("shoots/<str:code>/shots/export/<str:kind>/", tables.shot_export, name="shot_export"),
    path("shoots/<str:code>/shots/templates/", templates.template_list, name="template_list"),
    path("shoots/<str:code>/shots/templates/new/", templates.template_new, name="template_new"),
    path("shoots/<str:code>/shots/templates/<int:pk>/", templates.template_edit, name="template_edit"),
    path("shoots/<str:code>/shots/templates/<int:pk>/remove/", templates.template_remove, name="template_remove"),
    path("shoots/<str:code>/shots/templates/<int:pk>/apply/", templates.template_apply, name="template_apply"),
    path("shoots/<str:code>/shots/in-them/", parts.shot_parts, name="shot_parts"),
    path("shoots/<str:code>/shots/in-them/brief/", parts.products_take_over, name="products_take_over"),
    path("shoots/<str:code>/shots/in-them/samples/<int:pk>/", parts.sample_edit, name="sample_edit"),
    path("shoots/<str:code>/shots/in-them/samples/<int:pk>/arrived/", parts.sample_arrived, name="sample_arrived"),
    path("shoots/<str:code>/shots/in-them/samples/<int:pk>/remove/", parts.sample_remove, name="sample_remove"),
    path("shoots/<str:code>/shots/in-them/product/<int:pk>/sample/", parts.sample_new, name="sample_new"),
    path("shoots/<str:code>/shots/in-them/<str:kind>/new/", parts.part_new, name="part_new"),
    path("shoots/<str:code>/shots/in-them/<str:kind>/<int:pk>/", parts.part_edit, name="part_edit"),
    path("shoots/<str:code>/shots/in-them/<str:kind>/<int:pk>/remove/", parts.part_remove, name="part_remove"),
    path("shoots/<str:code>/shots/<int:pk>/", shots.shot_edit, name="shot_edit"),
    path("shoots/<str:code>/shots/<int:pk>/duplicate/", shots.shot_duplicate, name="shot_duplicate"),
    path("shoots/<str:code>/shots/<int:pk>/remove/", shots.shot_remove, name="shot_remove"),
    path("shoots/<str:code>/shots/<int:pk>/got/", shots.shot_got, name="shot_got"),
    path("shoots/<str:code>/shots/<int:pk>/move/", shots.shot_move, name="shot_move"),
]
