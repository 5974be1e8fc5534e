"""The sentence that stands on everything that is handed over."""

CAUTION = "No treatment is advised here: label, local rules, licensed adviser decide."
