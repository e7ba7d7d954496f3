"""The codes that the service tells by, each with what it means and how to mend it."""

import msgspec

from wallwright.api.problems import PROBLEMS, SCHEMA_FAULTS
from wallwright.findings import FAULTS, KINDS


class CodePage(msgspec.Struct, frozen=True):
    """What one problem, fault or finding code means, and how to mend it."""

    code: str
    kind: str
    title: str
    meaning: str
    cure: str


def code_pages() -> dict[str, CodePage]:
    """Every code of the service: problems, faults of a request and of a plan, findings."""
    pages = {code: CodePage(code, "problem", k.title, k.meaning, k.cure) for code, k in PROBLEMS.items()}
    pages |= {code: CodePage(code, "fault", s.title, s.meaning, s.cure) for code, s in SCHEMA_FAULTS.items()}
    pages |= {code: CodePage(code, "fault", f.title, f.meaning, f.cure) for code, f in FAULTS.items()}
    pages |= {code: CodePage(code, "finding", n.title, n.meaning, n.cure) for code, n in KINDS.items()}
    return pages
