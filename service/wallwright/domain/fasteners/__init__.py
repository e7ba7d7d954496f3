"""How a wall is fastened: joints, counts, places, and what they hold."""

from wallwright.domain.fasteners.fastened import fasten
from wallwright.domain.fasteners.totals import added
from wallwright.domain.fasteners.values import Fasteners, Joint, Point, Shear, Strength, Total

__all__ = ["Fasteners", "Joint", "Point", "Shear", "Strength", "Total", "added", "fasten"]
