"""Pure functions: numbers in, frozen results out, each with its published source.

One method family a module; nothing here knows of stores, files or dates. A question without an
answer (no unit, no defect, too short a history) gives None or a result in words, never NaN; only a
caller's mistake raises ValueError.

    figures      proportion rate demerit yields           intervals that stand beside every rate
    signals      limits usual cusum tabular between multiple ewma
    ranks        ranks
    causes       fisher mantel_haenszel homogeneity mann_whitney permutation ranges together excess
    reach        scan stretches changepoint containment
    effects      effect before_after mix survival waiting agreement
    shared       interval helpers
"""
