"""A lab day on paper: its timeline, a bench sheet for each pair, what to fetch and what to buy."""
