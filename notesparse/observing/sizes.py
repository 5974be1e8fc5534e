"""Sizes of pods and seeds in mm: beyond the first of each a length is asked about, beyond the second it is none (reading
guide, section 8)."""

from __future__ import annotations

LONG_POD, LONGEST_POD = 70, 100
LONG_SEED, LONGEST_SEED = 12, 20
