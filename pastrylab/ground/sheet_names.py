"""The names in the folder datasets of every sheet that the package reads; logs stand in folders of their own."""

SHEETS = frozenset(
    (
        *("ingredients.csv", "labels.csv", "couvertures.csv", "prices.csv", "bonbons.csv", "pack_lists.csv"),
        *("chocolate_bands.csv", "cocoa_butter.csv", "storage_limits.csv", "infusions.csv", "fillings.csv"),
        *("ganache_ratios.csv", "ganache_targets.csv", "lab.csv", "moulded.csv", "stock.csv"),
        *("marking.csv", "rubrics.csv", "piece_marks.csv", "lab_checks.csv", "term.csv"),
        *("probe_logs.csv", "cream_logs.csv", "store_logs.csv"),
        *("exercise_values.csv", "own_exercises.csv"),
        *("examples/exercise_values.csv", "examples/own_exercises.csv"),
    )
)
