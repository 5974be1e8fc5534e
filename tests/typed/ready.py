"""Whether this computer can read typed pages at all."""

from __future__ import annotations

import pytest

from notesparse.errors import InputError
from notesparse.typed.recognise import recogniser


def _ready() -> bool:
    try:
        recogniser()
    except InputError:
        return False
    return True


needs_tesseract = pytest.mark.skipif(not _ready(), reason="tesseract or the libraries of the extra ocr are missing")
