"""A picture's bytes to grey pages: what can be opened, what is too large, which way is up.

A page is a matrix of 8-bit greys, rows by columns, 0 black and 255 white.
"""

from __future__ import annotations

import io
import struct
import warnings
import zlib
from typing import TYPE_CHECKING, Any

from notesparse.errors import InputError

if TYPE_CHECKING:
    from numpy import uint8
    from numpy.typing import NDArray

    Grey = NDArray[uint8]

KINDS = ("PNG", "JPEG", "TIFF", "BMP", "WEBP")
"""What is opened, as Pillow calls it. No other decoder is tried on a stranger's file."""

MOST_PIXELS = 120_000_000
"""Of one page: the largest telephone cameras give 108 million (from memory)."""

FEWEST_PIXELS = 40
"""Of the shorter side: no line of type is legible on less."""

MOST_PAGES = 40
"""Of one file."""

_BROKEN = (
    OSError,
    SyntaxError,
    ValueError,
    EOFError,
    ArithmeticError,
    LookupError,
    TypeError,
    AttributeError,
    NotImplementedError,
    struct.error,
    zlib.error,
)
"""What Pillow's decoders raise on broken files."""


def pages_of(data: bytes, name: str) -> list[Grey]:
    """The pages of a picture, the right way up, on white. Raises `InputError` where there is nothing to look at."""
    if not data:
        raise InputError(f"{name}: the file is empty.")
    from PIL import Image, UnidentifiedImageError

    try:
        with warnings.catch_warnings():
            # Pillow's own alarm at many pixels comes later than ours, and odd tags are no fault.
            warnings.simplefilter("ignore")
            with Image.open(io.BytesIO(data), formats=KINDS) as image:
                # Only a TIFF has pages: other kinds move, or hold a telephone's small copy (MPO).
                count = int(getattr(image, "n_frames", 1)) if image.format == "TIFF" else 1
                if count > MOST_PAGES:
                    raise InputError(f"{name}: has {count} pages; give at most {MOST_PAGES} in one file.")
                return [_page(image, at, count, name) for at in range(count)]
    except UnidentifiedImageError:
        raise InputError(f"{name}: is no picture that can be opened; save it as PNG or JPEG and give that.") from None
    except Image.DecompressionBombError:
        raise InputError(_too_many(name)) from None
    except MemoryError:
        raise InputError(f"{name}: is too large a picture for the memory here; save it smaller.") from None
    except _BROKEN as fault:
        told = str(fault).splitlines()[0] if str(fault) else type(fault).__name__
        raise InputError(f"{name}: the picture is damaged or cut short ({told}); copy or scan it again.") from None


def _page(image: Any, at: int, count: int, name: str) -> Grey:
    import numpy
    from PIL import Image, ImageOps

    image.seek(at)
    here = f"{name}, page {at + 1}" if count > 1 else name
    width, height = image.size
    if width * height > MOST_PIXELS:
        raise InputError(_too_many(here))
    if min(width, height) < FEWEST_PIXELS:
        raise InputError(f"{here}: is {width} by {height} pixels, too small for a page that can be read.")
    up = ImageOps.exif_transpose(image)
    if up.mode.startswith("I") or up.mode == "F":  # 16 bits and more: from the darkest to the lightest
        deep = numpy.asarray(up, dtype=numpy.float64)
        low, high = float(deep.min()), float(deep.max())
        return ((deep - low) * (255.0 / max(high - low, 1.0))).astype(numpy.uint8)
    if up.mode in ("RGBA", "LA", "PA", "La", "RGBa") or "transparency" in up.info:
        clear = up.convert("RGBA")
        paper = Image.new("RGBA", clear.size, "white")
        up = Image.alpha_composite(paper, clear)
    return numpy.asarray(up.convert("L"), dtype=numpy.uint8)


def _too_many(name: str) -> str:
    return f"{name}: has more than {MOST_PIXELS // 1_000_000} million pixels; save it smaller, at 300 dots an inch."
