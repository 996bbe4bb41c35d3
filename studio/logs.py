"""The request id on log lines. Kept apart from the middleware: logging is set up before models can be loaded."""

from __future__ import annotations

import contextvars
import logging

current_request_id: contextvars.ContextVar[str] = contextvars.ContextVar("request_id", default="-")


class RequestIdFilter(logging.Filter):
    """Puts the current request's id on each log record."""

    def filter(self, record: logging.LogRecord) -> bool:
        record.request_id = current_request_id.get()
        return True
