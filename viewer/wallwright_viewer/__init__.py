"""Pages for people: a form, drawings, code pages and the reference, made on the server and without script."""
