#!/usr/bin/env python
"""Django's command-line door."""

import os
import sys


def main() -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")
    from django.core.management import execute_from_command_line
    from django.db.utils import OperationalError, ProgrammingError

    try:
        execute_from_command_line(sys.argv)
    except (OperationalError, ProgrammingError) as error:
        # SQLite and PostgreSQL each have their words for a database that nobody has prepared.
        if "no such table" not in str(error) and "does not exist" not in str(error):
            raise
        sys.exit(
            f"The database is not prepared ({str(error).splitlines()[0]}): run manage.py migrate, or script/start."
        )


if __name__ == "__main__":
    main()
