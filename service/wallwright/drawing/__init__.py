"""A scene of shapes in real-world millimetres, then paper, then SVG."""
