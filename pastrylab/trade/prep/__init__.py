"""A prep list as people write it, read into a formula."""
