"""The formula box: one view of a formula of one's own, a module a step."""
