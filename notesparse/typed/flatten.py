"""The paper made white: shadow and yellowing divided away, and the type brought to the size the recogniser likes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from notesparse.typed.picture import Grey

WHITE, BLACK = 0.86, 0.15
"""Shares of the paper's own brightness: what is lighter is paper and nothing else, what is darker is black. The grain
of a camera is well within the one, and the grey of a worn ribbon between the two."""

DARK = 128
"""Greys of a flattened page darker than this are ink."""

LETTER = 22.0
"""Pixels of height of a small letter, to which a page is brought: 300 dots an inch of 12-point type give about that."""

MOST_AT_ONCE = 14_000_000
"""Pixels that a page may have after it is brought to size: more costs time and tells no more."""


def flatten(grey: Grey) -> Grey:
    """The page divided by its own background, which is the page blurred after its ink was painted over."""
    import numpy
    from scipy import ndimage

    small = max(1, min(grey.shape) // 240)  # the background is smooth: a small copy of the page will do
    coarse = grey[::small, ::small].astype(numpy.float32)
    if small > 1:  # the mean of each block, so that fine dark lines do not fall between
        rows, columns = (grey.shape[0] // small) * small, (grey.shape[1] // small) * small
        blocks = grey[:rows, :columns].reshape(rows // small, small, columns // small, small)
        coarse = blocks.mean(axis=(1, 3), dtype=numpy.float32)
    reach = max(7, min(coarse.shape) // 20) | 1
    paper = ndimage.percentile_filter(coarse, 85, size=max(5, reach // 2 | 1))
    paper = ndimage.gaussian_filter(paper, reach / 2)
    zoomed = _resized(paper, grey.shape)
    light = grey / numpy.maximum(zoomed, 8.0)
    level: Grey = (numpy.clip((light - BLACK) / (WHITE - BLACK), 0, 1) * 255).astype(numpy.uint8)
    return level


def _resized(values: Any, shape: tuple[int, ...]) -> Any:
    import numpy
    from PIL import Image

    image = Image.fromarray(numpy.asarray(values, dtype=numpy.float32))
    return numpy.asarray(image.resize((shape[1], shape[0]), Image.Resampling.BILINEAR))


def letter_height(flat: Grey) -> float | None:
    """The usual height in pixels of what stands on the page in one piece: about that of a small letter. None where the
    page is as good as empty."""
    import numpy
    from scipy import ndimage

    marks, count = ndimage.label(flat < DARK)
    if not count:
        return None
    heights = [(s[0].stop - s[0].start, s[1].stop - s[1].start) for s in ndimage.find_objects(marks)]
    letters = [h for h, w in heights if h >= 4 and w >= 2 and h < flat.shape[0] / 8 and w < 6 * h]
    return float(numpy.median(letters)) if len(letters) >= 5 else None


def to_size(flat: Grey, letter: float | None, wanted: float = LETTER) -> Grey:
    """The page enlarged or reduced so that its small letters are `wanted` pixels high, where they are far from it."""
    import numpy
    from PIL import Image

    times = wanted / letter if letter else 1.0
    if 0.85 < times < 1.2:
        times = 1.0
    rows, columns = flat.shape
    times = min(
        times, 4.0, (MOST_AT_ONCE / (rows * columns)) ** 0.5 if rows * columns * times**2 > MOST_AT_ONCE else 4.0
    )
    if times == 1.0:
        return flat
    size = (max(1, round(columns * times)), max(1, round(rows * times)))
    return numpy.asarray(Image.fromarray(flat).resize(size, Image.Resampling.LANCZOS))
