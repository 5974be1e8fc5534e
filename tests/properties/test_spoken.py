"""The laws of every note, on notes made up as they are spoken: the sampler that the language model learns from."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notesparse.spoken.sampler import phrases, sentences
from tests.properties.laws import check

pytestmark = pytest.mark.law
SEEDS = st.integers(0, 2**32)
MARKS = st.sampled_from([" ", ". ", ", ", "\n"])


@given(SEEDS, st.integers(1, 6), MARKS)
@settings(max_examples=150)
def test_a_spoken_walk_gives_a_sound_record(seed: int, count: int, mark: str) -> None:
    check(mark.join(" ".join(said) for said in sentences(seed, count)))


@given(SEEDS)
@settings(max_examples=150)
def test_a_spoken_phrase_of_any_form_gives_a_sound_record(seed: int) -> None:
    check(" ".join(w for _, said in phrases(seed, 3) for w in said))


@given(SEEDS)
@settings(max_examples=60)
def test_a_capital_or_a_full_stop_breaks_no_law(seed: int) -> None:
    check(" ".join(" ".join(said).capitalize() + "." for said in sentences(seed, 3)))
