"""The recogniser: the system's tesseract, one page at a time, to words with their places and how sure it is of each."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from notesparse.errors import InputError
from notesparse.lazy import dataclass

if TYPE_CHECKING:
    from notesparse.typed.picture import Grey

LANGUAGE = "eng"

SETTINGS = "--oem 1 --psm 6"
"""Its neural reader; one block of lines of one size: with wide gaps in them it otherwise takes columns for texts."""

SECONDS = 300
"""The longest that the recogniser may take over one page: it takes two to five."""


@dataclass(frozen=True, slots=True)
class Word:
    """One word at [left, right) by [top, bottom) pixels; `sure` is the recogniser's confidence, 0 to 100."""

    text: str
    left: int
    top: int
    right: int
    bottom: int
    sure: float

    @property
    def middle(self) -> float:
        return (self.top + self.bottom) / 2


def recogniser() -> str:
    """Name and version of the recogniser. Raises `InputError`, with what to install, where something is missing."""
    try:
        import numpy  # noqa: F401
        import PIL  # noqa: F401
        import pytesseract
        import scipy  # noqa: F401
    except ImportError:
        raise InputError('Typed pages need more libraries: python -m pip install "notesparse[ocr]"') from None
    try:
        version = str(pytesseract.get_tesseract_version())
        languages = pytesseract.get_languages()
    except (pytesseract.TesseractNotFoundError, SystemExit, OSError):
        raise InputError(
            "Typed pages are read with tesseract, and it is not on this computer: "
            "apt-get install tesseract-ocr (Debian, Ubuntu), brew install tesseract (macOS), "
            "or its installer for Windows, with its folder on the PATH."
        ) from None
    if LANGUAGE not in languages:
        raise InputError(
            "Typed pages are read with tesseract's English data, and it is not on this computer: "
            "apt-get install tesseract-ocr-eng (Debian, Ubuntu), or put eng.traineddata into its tessdata folder."
        )
    return f"tesseract {version}"


def recognise(page: Grey) -> list[Word]:
    """The words of a page, taken as one even block of lines, in the recogniser's order."""
    import pytesseract
    from PIL import Image

    try:
        table: dict[str, list[Any]] = pytesseract.image_to_data(
            Image.fromarray(page),
            lang=LANGUAGE,
            config=SETTINGS,
            timeout=SECONDS,
            output_type=pytesseract.Output.DICT,
        )
    except (pytesseract.TesseractError, RuntimeError, OSError) as fault:
        told = str(fault).strip().splitlines()[-1][:200] if str(fault).strip() else type(fault).__name__
        raise InputError(f"tesseract could not read the page ({told}).") from None
    found = []
    for text, left, top, width, height, sure in zip(
        *(table[key] for key in ("text", "left", "top", "width", "height", "conf")), strict=True
    ):
        if str(text).strip() and float(sure) >= 0:
            found.append(Word(str(text).strip(), left, top, left + width, top + height, float(sure)))
    return found
