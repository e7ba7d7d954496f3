"""One module a capability: wire request to domain to wire answer, table or scene."""
