"""The trade: pure functions on frozen values; no web, no files, no clock, no globals."""
