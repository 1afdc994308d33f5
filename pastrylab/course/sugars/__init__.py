"""Lesson 04, invert sugar."""
