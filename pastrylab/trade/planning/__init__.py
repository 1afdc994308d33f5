"""A lab day planned backwards: its steps, a plan of them, and what clashes where none fits."""
