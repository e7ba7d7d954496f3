"""The published tables as they are served."""

from typing import Annotated, Any

from msgspec import Meta

from wallwright.wire.base import Answer


class PublishedTable(Answer, frozen=True):
    """One table in use, with where it stands and how sure its figures are."""

    id: str
    title: str
    source: Annotated[str, Meta(description="The document.")]
    editions: Annotated[list[str], Meta(description="Editions that print these rows.")]
    clause: str
    status: Annotated[
        str,
        Meta(
            description="`verified`: read in adopted text of the document; `verified_partly`: in part; more may come."
        ),
    ]
    units: str
    notes: list[str]
    rows: Annotated[
        list[dict[str, Any]],
        Meta(description="Rows by names that carry their unit; one with `editions` of its own is of these only."),
    ]


class PublishedAnswer(Answer, frozen=True):
    """Every published table that answers are compared with. Local codes come first."""

    tables: list[PublishedTable]
