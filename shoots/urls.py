"""Register: every slices URLs."""

urlpatterns: list = []
