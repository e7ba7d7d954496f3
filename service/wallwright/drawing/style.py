"""The one constant style sheet of all drawings, and its hash, which the content policy names."""

import base64
import hashlib
from typing import Final

STYLE: Final = (
    ".ww-paper{fill:#fff}"
    ".ww-cut{fill:#fff;stroke:#000;stroke-width:.7}"
    ".ww-member{fill:#fff;stroke:#000;stroke-width:.35}"
    ".ww-plate{fill:#e4e4e4;stroke:#000;stroke-width:.5}"
    ".ww-header{fill:#ccc;stroke:#000;stroke-width:.5}"
    ".ww-block{fill:#f4f4f4;stroke:#000;stroke-width:.25}"
    ".ww-void{fill:none;stroke:#000;stroke-width:.18;stroke-dasharray:2 1}"
    ".ww-sheet{fill:#fff;stroke:#000;stroke-width:.5}"
    ".ww-hole{fill:#fff;stroke:#000;stroke-width:.35}"
    ".ww-behind{fill:none;stroke:#777;stroke-width:.18;stroke-dasharray:1 1}"
    ".ww-hidden{fill:none;stroke:#000;stroke-width:.18;stroke-dasharray:2 .8}"
    ".ww-mask{fill:#fff}"
    ".ww-thin{fill:none;stroke:#000;stroke-width:.18}"
    ".ww-dim{fill:none;stroke:#000;stroke-width:.25}"
    ".ww-bold{fill:none;stroke:#000;stroke-width:.5}"
    ".ww-bar{fill:#000}"
    "text{font-family:'DejaVu Sans',Arial,sans-serif;fill:#000}"
    ".ww-t{font-size:2.5px}.ww-t3{font-size:3.5px}.ww-t5{font-size:5px}"
)
STYLE_HASH: Final = "sha256-" + base64.b64encode(hashlib.sha256(STYLE.encode()).digest()).decode()
