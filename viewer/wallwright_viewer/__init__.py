"""The pages of wallwright: forms and drawings rendered on the server, without scripts."""
