"""The benchmarks are not in the timed path of the test command; that they can still be run is."""

from __future__ import annotations

from tests.bench.made import chosen_kinds


def test_the_phrases_of_a_note_are_found_for_the_bare_parser() -> None:
    assert chosen_kinds("plant 1 nine trifs, R2") == [["PLANT", "INT"], ["INT", "TRIF"], ["R", "INT"]]
