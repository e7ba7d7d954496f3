"""wallwright: works out the walls of small timber buildings, exactly, and draws them."""

__version__ = "0.1.0"
