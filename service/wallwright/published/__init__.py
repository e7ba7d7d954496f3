"""Figures of codes and standards, each with source, edition and clause, and their look-ups."""
