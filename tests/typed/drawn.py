"""Pages drawn for the tests: a note in a font of this computer, then skew, shadow, blur and noise."""

from __future__ import annotations

import io
import subprocess
import textwrap
from functools import cache
from pathlib import Path
from typing import Any

TYPED = ("GNUTypewriter", "Courier Prime", "Courier Prime Code", "Liberation Mono", "DejaVu Sans Mono")
"""Fonts of Debian packages that look typed or printed: fonts-gnutypewriter, fonts-courier-prime, fonts-liberation."""

BY_HAND = ("Breip", "Because We Learn", "Because We Create", "Kristi", "Humor Sans")
"""Fonts that look written by hand: fonts-breip, fonts-bwht, fonts-kristi, fonts-humor-sans."""

_FOLDERS = ("/usr/share/fonts", "/usr/local/share/fonts", "/Library/Fonts", "C:/Windows/Fonts")


@cache
def font_file(family: str) -> str | None:
    """The file of a font family in its upright regular cut; None where this computer does not have it."""
    try:
        listed = subprocess.run(
            ["fc-list", f":family={family}", "file", "style"], capture_output=True, text=True, timeout=30
        ).stdout
    except (OSError, subprocess.TimeoutExpired):
        return None
    files = [line.split(":")[0] for line in listed.splitlines() if line.strip()]
    plain = [f for f in files if not any(w in Path(f).stem for w in ("Bold", "Italic", "Oblique", "Extra"))]
    return min(plain, key=len, default=None)


def draw(
    text: str,
    family: str = "DejaVu Sans Mono",
    *,
    size: int = 34,
    skew: float = 0.0,
    shadow: float = 0.0,
    blur: float = 0.0,
    noise: float = 0.0,
    bow: float = 0.0,
    jitter: float = 0.0,
    width: int = 76,
    seed: int = 0,
) -> Any:
    """A page as a grey Pillow image. `size` in pixels an em (34: 12 points at 200 dots an inch), `skew` in degrees,
    `shadow` the share of light that the darkest corner loses, `blur` and `noise` in pixels and greys, `bow` the share
    of the width by which the far edge of a photographed sheet is shorter, `jitter` in pixels that letters stray."""
    import numpy
    from PIL import Image, ImageDraw, ImageFilter, ImageFont

    chance = numpy.random.default_rng(seed)
    file = font_file(family)
    assert file is not None, family
    font = ImageFont.truetype(file, size)
    lines = [
        part
        for line in text.splitlines()
        for part in (textwrap.wrap(line, width, drop_whitespace=True) if len(line) > width else [line])
    ]
    pitch, margin = round(size * 1.45), size * 2
    across = max((font.getlength(line) for line in lines), default=0)
    page = Image.new("L", (round(across) + 2 * margin, pitch * len(lines) + 2 * margin), 238)
    pen = ImageDraw.Draw(page)
    for row, line in enumerate(lines):
        x = float(margin)
        for letter in line:
            dx, dy = chance.normal(0, jitter, 2) if jitter else (0.0, 0.0)
            if letter != " ":
                pen.text((x + dx, margin + row * pitch + dy), letter, font=font, fill=int(chance.integers(20, 60)))
            x += font.getlength(letter)
    if bow:
        w, h = page.size
        d = bow * w
        page = page.transform(
            page.size, Image.Transform.QUAD, (-d, 0, 0, h, w, h, w + d, 0), Image.Resampling.BICUBIC, fillcolor=238
        )
    if skew:
        page = page.rotate(skew, Image.Resampling.BICUBIC, expand=True, fillcolor=238)
    if blur:
        page = page.filter(ImageFilter.GaussianBlur(blur))
    grey = numpy.asarray(page, dtype=numpy.float64)
    if shadow:
        rows, columns = grey.shape
        slope = numpy.linspace(0, 1, rows)[:, None] * 0.6 + numpy.linspace(0, 1, columns)[None, :] * 0.4
        grey = grey * (1 - shadow * slope**1.5)
    if noise:
        grey = grey + chance.normal(0, noise, grey.shape)
    return Image.fromarray(numpy.clip(grey, 0, 255).astype(numpy.uint8))


def scan(text: str, family: str, seed: int) -> Any:
    """As from a flat scanner: up to 1.5 degrees askew, a little blur and noise."""
    import numpy

    skew = float(numpy.random.default_rng(seed).uniform(-1.5, 1.5))
    return draw(text, family, skew=skew, blur=0.8, noise=6, seed=seed)


def photo(text: str, family: str, seed: int) -> Any:
    """As from a telephone: up to 4 degrees askew, a far edge, a shadow, blur, noise, a strongly packed JPEG."""
    import numpy
    from PIL import Image

    skew = float(numpy.random.default_rng(seed).uniform(-4, 4))
    page = draw(text, family, skew=skew, bow=0.02, shadow=0.6, blur=1.1, noise=8, seed=seed)
    packed = io.BytesIO()
    page.save(packed, "JPEG", quality=55)
    return Image.open(io.BytesIO(packed.getvalue())).copy()


def by_hand(text: str, family: str, seed: int) -> Any:
    """A page in a font that looks written by hand, its letters straying."""
    return draw(text, family, size=44, jitter=1.5, skew=0.8, blur=0.8, noise=6, width=60, seed=seed)


def as_bytes(page: Any, form: str = "PNG") -> bytes:
    out = io.BytesIO()
    page.save(out, form)
    return out.getvalue()
