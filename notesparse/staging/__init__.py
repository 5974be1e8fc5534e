"""From facts to growth stages: usable alone, by hand or from a table.

Needs nothing but the standard library and `notesparse.facts`. Stages are those of Fehr and Caviness (1977), *Stages of
soybean development*, Iowa State University Special Report 80; every number a stage rests on is in `limits.toml`.
"""
