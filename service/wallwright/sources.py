"""Where a figure or a rule comes from, as a value that travels beside it."""

from typing import Final

import msgspec


class Source(msgspec.Struct, frozen=True, gc=False):
    """A published document, or the plain word that there is none."""

    document: str
    edition: str = ""
    clause: str = ""

    def text(self) -> str:
        """The source as one line of text."""
        return ", ".join(part for part in (self.document, self.edition, self.clause) if part)


COMMON_PRACTICE: Final = Source("common practice, no source")
OWN_RULE: Final = Source("wallwright", "", "a rule of this service, see its documentation")
FROM_MEMORY: Final = Source("from memory")
IRC_EDITIONS: Final = {"irc-2015": "2015", "irc-2018": "2018", "irc-2021": "2021", "irc-2024": "2024"}


def irc(rules: str, clause: str) -> Source:
    """A clause of the International Residential Code in the edition named by ``rules``."""
    return Source("International Residential Code", IRC_EDITIONS[rules], clause)
