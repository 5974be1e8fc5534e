"""How far a page lies askew, and the page turned straight: lines of type that lie level make the sharpest rows."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from notesparse.typed.picture import Grey

MOST = 10.0
"""Degrees to either side that are looked at: a sheet in a scanner or under a telephone lies straighter."""


def askew(flat: Grey) -> float:
    """Degrees by which the page is to be turned against the clock for its lines to lie level; 0 where nothing tells."""
    import numpy
    from PIL import Image

    rows, columns = flat.shape
    step = max(1, max(rows, columns) // 700)
    image = Image.fromarray(255 - flat).reduce(step)
    if numpy.asarray(image).max() < 64:
        return 0.0

    def sharpness(angle: float) -> float:
        level = numpy.asarray(image.rotate(angle, Image.Resampling.BILINEAR), dtype=numpy.float64)
        rows = level.sum(axis=1)
        return float(numpy.square(numpy.diff(rows)).sum())

    best, span = 0.0, MOST
    for width in (1.0, 0.25, 0.05):
        angles = [best + width * k for k in range(-round(span / width), round(span / width) + 1)]
        best = max(angles, key=lambda a: (sharpness(a), -abs(a)))
        span = width
    return round(max(-MOST, min(MOST, best)), 2)


def turned(flat: Grey, angle: float) -> Grey:
    """The page turned by `angle` degrees against the clock, its corners filled with white."""
    import numpy
    from PIL import Image

    if abs(angle) < 0.1:
        return flat
    image = Image.fromarray(flat).rotate(angle, Image.Resampling.BICUBIC, expand=True, fillcolor=255)
    return numpy.asarray(image)
