"""Logs as lines of JSON that hold nothing of a caller's own text."""

import json
import logging
import sys
import traceback
from datetime import UTC, datetime
from pathlib import PurePath
from typing import Any, Final

_ENCODER: Final = json.JSONEncoder(separators=(",", ":"))


class Lines(logging.Formatter):
    """One line of JSON a record.

    A failure is told by the kind of its exception and the places of its traceback; an exception's own text is
    left out, since it may quote what a caller sent.
    """

    def format(self, record: logging.LogRecord) -> str:
        """The record as one line."""
        line: dict[str, Any] = {
            "time": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "logger": record.name,
        }
        if isinstance(record.msg, dict):
            line |= record.msg
        else:
            line["message"] = record.getMessage()
        if record.exc_info and record.exc_info[0] is not None:
            line["exception"] = record.exc_info[0].__name__
            line["places"] = [
                f"{PurePath(frame.filename).name}:{frame.lineno} {frame.name}"
                for frame in traceback.extract_tb(record.exc_info[2])
            ]
        return _ENCODER.encode(line)


class _Handler(logging.StreamHandler[Any]):
    """Standard error; where it is closed or full, lines are lost and the service goes on."""

    def handleError(self, record: logging.LogRecord) -> None:  # noqa: N802 - the name is logging's
        pass


def start_logs() -> None:
    """Send every record of the process to standard error as lines."""
    handler = _Handler(sys.stderr)
    handler.setFormatter(Lines())
    # What no line shows is not looked up: which module, thread and process each record comes from.
    logging._srcfile = None
    logging.logThreads = logging.logProcesses = logging.logMultiprocessing = False
    logging.basicConfig(level=logging.INFO, handlers=[handler], force=True)
    # The parser's complaints about what is no HTTP are answered 400 and counted nowhere else: warnings stay.
    logging.getLogger("uvicorn.error").setLevel(logging.WARNING)
    logging.getLogger("asyncio").setLevel(logging.WARNING)
