"""From facts to growth stages: usable alone, by hand or from a table.

    >>> from notesparse.facts import PlantFacts
    >>> from notesparse.staging.field import field_stage, stage_plant
    >>> plants = [stage_plant(PlantFacts(trifoliates=11, flowers_from_top=(1, 2))) for _ in range(10)]
    >>> field_stage(plants).v, field_stage(plants).r
    ('V11', 'R2')

Lengths are millimetres, shares percent (0 to 100), and nodes are counted from the top, the top node being 1.
Needs nothing but the standard library and `notesparse.facts`. Stages are those of Fehr and Caviness (1977), *Stages of
soybean development*, Iowa State University Special Report 80; every number a stage rests on is in `limits.toml`.
"""
